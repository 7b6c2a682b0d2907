//! The recipe's numbers as data: what each is called, how far it goes, where in the recipe it lives and how it is
//! said. One component draws them all.

pub mod coat;
pub mod others;

use super::words;
use dappledome::base::scalar;
use dappledome::base::scalar::Bounds;
use dappledome::base::shown::{Lengths, Units};
use dappledome::base::typed::Kind;
use dappledome::base::units::plain;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::Limit;

/// Which of a recipe's alike parts a number belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// The coat's id, for what lies in a coat.
    pub coat: u32,
    /// The sheet or the part of a blend, counted from 0.
    pub at: usize,
}

/// One number of a recipe: one needle on a rule.
pub struct Needle {
    /// What it is called if its rule has two of them.
    pub name: &'static str,
    /// How far it goes.
    pub limit: Limit,
    /// Reads it; none if the recipe has no such place.
    pub get: fn(&Recipe, Place) -> Option<f64>,
    /// Writes it.
    pub set: fn(&mut Recipe, Place, f64),
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

/// A graduated rule with one needle, or two on one scale.
pub struct Rule {
    /// What it stands for at the bench.
    pub label: &'static str,
    /// How its value is said.
    pub unit: Unit,
    /// Its numbers.
    pub needles: &'static [Needle],
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

impl Rule {
    /// The range of its scale, from the least of its needles to the most.
    pub fn scale(&self) -> Limit {
        let first = self.needles[0].limit;
        let last = self.needles[self.needles.len() - 1].limit;
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
        let said = self.unit.say(value, &self.needles[at].limit, units);
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
    pub fn say_all(&self, recipe: &Recipe, place: Place, units: Units) -> String {
        let values: Vec<f64> = self.needles.iter().filter_map(|needle| (needle.get)(recipe, place)).collect();
        match values[..] {
            [one] => self.say(0, one, units),
            [from, to] => words::from_to(&self.number(from, units), &self.say(1, to, units)),
            _ => String::new(),
        }
    }

    /// Whether a value differs from the usual one by half a step or more.
    pub fn differs(&self, recipe: &Recipe, place: Place) -> bool {
        self.needles.iter().any(|needle| {
            (needle.get)(recipe, place)
                .is_some_and(|value| (value - needle.limit.usual).abs() > needle.limit.step * 0.49)
        })
    }
}

/// Where on its scale a value stands, 0 to 1.
pub fn position(limit: &Limit, value: f64) -> f64 {
    let share = if limit.by_ratio {
        scalar::ln(value.max(1e-6) / limit.least) / scalar::ln(limit.most / limit.least)
    } else {
        (value - limit.least) / (limit.most - limit.least)
    };
    if share.is_finite() { share.between(0.0, 1.0) } else { 0.0 }
}

/// The value at a place on the scale, 0 to 1.
pub fn value_at(limit: &Limit, share: f64) -> f64 {
    let share = share.between(0.0, 1.0);
    if limit.by_ratio {
        limit.least * scalar::pow(limit.most / limit.least, share)
    } else {
        limit.least + share * (limit.most - limit.least)
    }
}

/// The nearest value within the range that is a whole number of `step`s from zero.
pub fn tidy(limit: &Limit, step: f64, value: f64) -> f64 {
    let stepped = (value.between(limit.least, limit.most) / step).round() * step;
    // Ten thousandths: the sum of many steps must not show as 0.30000000000000004 in a saved recipe.
    ((stepped * 1e4).round() / 1e4).between(limit.least, limit.most)
}

/// A graduation of a scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where, 0 to 1.
    pub at: f64,
    /// What is written under it; nothing under a short one.
    pub label: String,
}

/// The graduations of a rule.
pub fn marks(rule: &Rule, units: Units) -> Vec<Mark> {
    let scale = rule.scale();
    if !rule.words.is_empty() {
        return rule
            .words
            .iter()
            .map(|(value, word)| Mark { at: position(&scale, *value), label: units.text(word) })
            .collect();
    }
    let on_scale = |value| rule.unit.shown(value, units);
    let shown = Limit { least: on_scale(scale.least), most: on_scale(scale.most), ..scale };
    let mut values = if shown.by_ratio {
        by_ratio(&shown, units.lengths == Lengths::Inches)
    } else if rule.unit.whole() && shown.most - shown.least <= 10.0 {
        (shown.least as i64..=shown.most as i64).map(|n| (n as f64, true)).collect()
    } else {
        evenly(&shown)
    };
    // The labels at the ends need room: the last one has the unit too.
    for (value, room) in [(shown.least, 0.13), (shown.most, 0.21)] {
        let at = position(&shown, value);
        values.retain(|(other, long)| !*long || (position(&shown, *other) - at).abs() > room);
        values.push((value, true));
    }
    values
        .into_iter()
        .map(|(value, long)| {
            let at = position(&shown, value);
            let label = match (long, at >= 1.0) {
                (false, _) => String::new(),
                (true, true) if rule.unit == Unit::Rolls => words::NEVER.into(),
                (true, true) => format!("{}{}", rule.unit.number(value, units), rule.unit.sign(units)),
                (true, false) => rule.unit.number(value, units),
            };
            Mark { at, label }
        })
        .collect()
}

/// Long marks at round numbers, three to five of them, and short ones between.
fn evenly(shown: &Limit) -> Vec<(f64, bool)> {
    let span = shown.most - shown.least;
    let mut step = 0.01;
    for (at, candidate) in (0..).zip([2.0, 2.5, 2.0].into_iter().cycle()) {
        if span / step <= 4.5 || at > 24 {
            break;
        }
        step *= candidate;
    }
    let short = step / 5.0;
    let first = (shown.least / short).ceil() as i64;
    let last = (shown.most / short).floor() as i64;
    (first..=last).map(|n| (n as f64 * short, n % 5 == 0)).collect()
}

/// Long marks where the value doubles (or grows tenfold on a wide scale), from the least value on, or in inches at
/// halves, quarters and eighths.
fn by_ratio(shown: &Limit, inches: bool) -> Vec<(f64, bool)> {
    let growth = if shown.most / shown.least > 40.0 { 10.0 } else { 2.0 };
    let mut marks = Vec::new();
    let mut value = if inches { 1.0 } else { shown.least };
    while value / growth >= shown.least {
        value /= growth;
    }
    while value < shown.most * 1.001 {
        marks.push((value, true));
        value *= growth;
    }
    marks
}
