//! What a field is: one number of the recipe, or two on one scale, with how it is said.

use super::scale::position;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::typed::Kind;
use dappledome::base::units::plain;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::Limit;

/// Which part of a recipe a number belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// What there is only one of.
    Whole,
    /// A sheet, counted from the bottom.
    Sheet(usize),
    /// The coat with this id.
    Coat(u32),
    /// A part of a coat's blend: the coat's id, and the part counted from 0.
    CoatPart(u32, usize),
    /// A glass among the accents, counted from 0.
    AccentPart(usize),
}

/// One number of a recipe: one thumb on a slider.
pub struct Thumb {
    /// What it is called if its field has two of them.
    pub name: &'static str,
    /// How far it goes.
    pub limit: Limit,
    /// Reads it; none if the recipe has no such target.
    pub get: fn(&Recipe, Target) -> Option<f64>,
    /// Writes it.
    pub set: fn(&mut Recipe, Target, f64),
}

/// How a number is said and typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A length.
    Mm,
    /// A width of something on the disc.
    Across,
    /// A share, in percent.
    Share,
    /// A pull toward crown or rim, -1 to 1.
    Pull,
    /// An angle.
    Turn,
    /// A temperature.
    Celsius,
    /// A time.
    Minutes,
    /// The glass in a heap of powder, as what a level 5 mL spoon of it weighs.
    Spoon,
    /// A bare number with decimals: parts, passes.
    Number,
    /// A whole number.
    Count,
    /// Rolls of the sponge; one above the most stands for never.
    Rolls,
}

/// A field with one number, or with two on one scale.
pub struct Field {
    /// What it stands for at the bench.
    pub label: &'static str,
    /// How its value is said.
    pub unit: Unit,
    /// Its numbers.
    pub thumbs: &'static [Thumb],
    /// Bench words along the scale; if there are none, it is divided by numbers.
    pub words: &'static [(f64, &'static str)],
    /// Whether the scale is a test tile: the fired color at every depth.
    pub tile: bool,
}

/// Grams that a level 5 mL spoon would hold if the glass were solid.
const SOLID_SPOON: f64 = 12.5;

impl Unit {
    /// What one in the recipe is on the scale.
    pub fn factor(self) -> f64 {
        match self {
            Self::Share | Self::Pull => 100.0,
            Self::Spoon => SOLID_SPOON,
            _ => 1.0,
        }
    }

    /// Whether only whole numbers make sense.
    pub fn whole(self) -> bool {
        matches!(self, Self::Count | Self::Rolls)
    }

    /// What a typed value measures.
    pub fn kind(self) -> Kind {
        match self {
            Self::Mm | Self::Across => Kind::Length,
            Self::Share | Self::Pull => Kind::Share,
            Self::Turn => Kind::Angle,
            Self::Celsius => Kind::Temperature,
            Self::Minutes => Kind::Time,
            Self::Spoon => Kind::Mass,
            Self::Number | Self::Count | Self::Rolls => Kind::Number,
        }
    }

    /// The unit behind a number on the scale.
    pub fn sign(self, units: Units) -> String {
        match self {
            Self::Mm | Self::Across => format!(" {}", units.length_sign()),
            Self::Share | Self::Pull => " %".into(),
            Self::Turn => "°".into(),
            Self::Celsius => format!(" {}", units.heat_sign()),
            Self::Minutes => " min".into(),
            Self::Spoon => " g".into(),
            Self::Number | Self::Count | Self::Rolls => String::new(),
        }
    }

    /// A value of the recipe on the scale, in the shown unit.
    pub fn shown(self, value: f64, units: Units) -> f64 {
        match self {
            Self::Mm | Self::Across => units.length(value),
            Self::Celsius => units.heat(value),
            _ => value * self.factor(),
        }
    }

    /// A number on the scale as it is written, without its unit.
    pub fn number(self, shown: f64, units: Units) -> String {
        match self {
            Self::Mm | Self::Across => units.length_number(shown),
            Self::Celsius => units.heat_number(shown),
            _ => plain(shown),
        }
    }

    /// A value of the recipe in the maker's words.
    pub fn say(self, value: f64, limit: &Limit, units: Units) -> String {
        let shown = self.shown(value, units);
        let number = || format!("{}{}", self.number(shown, units), self.sign(units));
        match self {
            Self::Rolls if value >= limit.most => words::NEVER.into(),
            Self::Rolls => words::rolls(&plain(shown)),
            Self::Pull if shown.abs() < 0.5 => words::ANYWHERE.into(),
            Self::Pull if shown < 0.0 => words::to_crown(&plain(-shown)),
            Self::Pull => words::to_rim(&plain(shown)),
            Self::Across => words::across(&number()),
            Self::Minutes if shown >= 60.0 => {
                let hours = (shown / 60.0) as u32;
                words::hours(hours, shown - f64::from(hours) * 60.0)
            }
            _ => number(),
        }
    }
}

impl Field {
    /// The range of its scale, from the least of its thumbs to the most.
    pub fn scale(&self) -> Limit {
        let first = self.thumbs[0].limit;
        let last = self.thumbs[self.thumbs.len() - 1].limit;
        Limit { least: first.least.min(last.least), most: first.most.max(last.most), ..first }
    }

    /// The word nearest a value, if its scale has words.
    pub fn word(&self, value: f64) -> Option<&'static str> {
        let scale = self.scale();
        let here = position(&scale, value);
        let far = |mark: &f64| (position(&scale, *mark) - here).abs();
        self.words.iter().min_by(|a, b| far(&a.0).total_cmp(&far(&b.0))).map(|(_, word)| *word)
    }

    /// A value in words, as it stands beside the label.
    pub fn say(&self, at: usize, value: f64, units: Units) -> String {
        let said = self.unit.say(value, &self.thumbs[at].limit, units);
        match self.word(value) {
            Some(word) if !self.tile && self.unit != Unit::Pull => format!("{word}, {said}"),
            _ => said,
        }
    }

    /// A value without its unit, as the first of two is written.
    pub fn number(&self, value: f64, units: Units) -> String {
        self.unit.number(self.unit.shown(value, units), units)
    }

    /// All its values as they stand now.
    pub fn say_all(&self, recipe: &Recipe, target: Target, units: Units) -> String {
        let values: Vec<f64> = self.thumbs.iter().filter_map(|thumb| (thumb.get)(recipe, target)).collect();
        match values[..] {
            [one] => self.say(0, one, units),
            [from, to] => words::from_to(&self.number(from, units), &self.say(1, to, units)),
            _ => String::new(),
        }
    }

    /// What a thumb is called: by itself if there are two, else by its field.
    pub fn thumb_name(&self, at: usize) -> &'static str {
        if self.thumbs.len() > 1 { self.thumbs[at].name } else { self.label }
    }

    /// A value, to those who do not see the scale.
    pub fn value_text(&self, at: usize, value: f64, units: Units) -> String {
        let said = self.unit.say(value, &self.thumbs[at].limit, units);
        match self.word(value).map(|word| units.text(word)) {
            Some(word) if self.tile && word != said => format!("{said}, {word}"),
            _ => self.say(at, value, units),
        }
    }

    /// Whether a value differs from the usual one by half a step or more.
    pub fn differs(&self, recipe: &Recipe, target: Target) -> bool {
        self.thumbs.iter().any(|thumb| {
            (thumb.get)(recipe, target)
                .is_some_and(|value| (value - thumb.limit.usual).abs() > thumb.limit.step * 0.49)
        })
    }
}
