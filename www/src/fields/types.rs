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

impl Target {
    /// The id of the coat that the number belongs to, if it belongs to one.
    pub fn coat_id(self) -> Option<u32> {
        match self {
            Self::Coat(id) | Self::CoatPart(id, _) => Some(id),
            Self::Whole | Self::Sheet(_) | Self::AccentPart(_) => None,
        }
    }
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
    /// Minutes of a hold; one above the most stands for as long as it takes.
    Settling,
    /// How fast a segment runs, K/h; one step above the most stands for as fast as the kiln goes.
    Rate,
    /// Kilowatts.
    Power,
    /// Volts.
    Volts,
    /// Money.
    Money,
    /// Kilowatt-hours.
    Energy,
    /// A mass of powder.
    Grams,
    /// A time of the day, minutes past midnight.
    Clock,
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

    /// The word for what lies one step above the most, where something does.
    pub fn beyond(self) -> Option<&'static str> {
        match self {
            Self::Rolls => Some(words::NEVER),
            Self::Settling => Some(words::FULL),
            Self::Rate => Some(words::AS_IT_GOES),
            _ => None,
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
            Self::Rate => Kind::HeatRate,
            Self::Minutes | Self::Settling | Self::Clock => Kind::Time,
            Self::Spoon | Self::Grams => Kind::Mass,
            Self::Number | Self::Count | Self::Rolls => Kind::Number,
            Self::Power | Self::Volts | Self::Money | Self::Energy => Kind::Number,
        }
    }

    /// The unit behind a number on the scale.
    pub fn sign(self, units: Units) -> String {
        match self {
            Self::Mm | Self::Across => format!(" {}", units.length_sign()),
            Self::Share | Self::Pull => " %".into(),
            Self::Turn => "°".into(),
            Self::Celsius => format!(" {}", units.heat_sign()),
            Self::Rate => format!(" {}/h", units.heat_sign()),
            Self::Minutes | Self::Settling => " min".into(),
            Self::Power => " kW".into(),
            Self::Volts => " V".into(),
            Self::Energy => " kWh".into(),
            Self::Spoon | Self::Grams => " g".into(),
            Self::Number | Self::Count | Self::Rolls | Self::Money | Self::Clock => String::new(),
        }
    }

    /// A value of the recipe on the scale, in the shown unit.
    pub fn shown(self, value: f64, units: Units) -> f64 {
        match self {
            Self::Mm | Self::Across => units.length(value),
            Self::Celsius => units.heat(value),
            Self::Rate => units.heat(value) - units.heat(0.0),
            _ => value * self.factor(),
        }
    }

    /// A number on the scale as it is written, without its unit.
    pub fn number(self, shown: f64, units: Units) -> String {
        match self {
            Self::Mm | Self::Across => units.length_number(shown),
            Self::Celsius | Self::Rate => units.heat_number(shown),
            _ => plain(shown),
        }
    }

    /// A value of the recipe without its unit as programs read numbers: never in fractions.
    pub fn decimal(self, value: f64, units: Units) -> String {
        let shown = self.shown(value, units);
        match self.kind() {
            Kind::Length => units.length_decimal(shown),
            _ => self.number(shown, units),
        }
    }

    /// A value of the recipe with its unit, and without what else is said beside a label.
    pub fn say_plainly(self, value: f64, limit: &Limit, units: Units) -> String {
        match self {
            Self::Across | Self::Pull => {
                format!("{}{}", self.number(self.shown(value, units), units), self.sign(units))
            }
            _ => self.say(value, limit, units),
        }
    }

    /// A value of the recipe in the maker's words.
    pub fn say(self, value: f64, limit: &Limit, units: Units) -> String {
        let shown = self.shown(value, units);
        let number = || format!("{}{}", self.number(shown, units), self.sign(units));
        match self {
            Self::Rolls | Self::Settling | Self::Rate if value >= limit.most => {
                self.beyond().unwrap_or_default().into()
            }
            Self::Rolls => words::rolls(shown as u32),
            Self::Pull if shown.abs() < 0.5 => words::ANYWHERE.into(),
            Self::Pull if shown < 0.0 => words::to_crown(&plain(-shown)),
            Self::Pull => words::to_rim(&plain(shown)),
            Self::Across => words::across(&number()),
            Self::Minutes | Self::Settling => words::minutes(shown),
            Self::Clock => words::clock(shown),
            Self::Money => words::money(shown),
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

    /// Sets one of its numbers. Of two on one scale the one that is met moves along, as far as it can go.
    pub fn set(&self, recipe: &mut Recipe, target: Target, at: usize, value: f64) {
        (self.thumbs[at].set)(recipe, target, value);
        let [low, high] = self.thumbs else { return };
        let (Some(from), Some(to)) = ((low.get)(recipe, target), (high.get)(recipe, target)) else { return };
        if from > to {
            let other = if at == 0 { high } else { low };
            (other.set)(recipe, target, value.clamp(other.limit.least, other.limit.most));
        }
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

    /// A value without its unit as programs read numbers: never in fractions.
    pub fn decimal(&self, value: f64, units: Units) -> String {
        self.unit.decimal(value, units)
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::coat::{PATCHES, PATCHES_DETAILS, THICK_AND_THIN};
    use crate::fields::firings::FUSE;
    use crate::fields::others::{ACCENTS, BLANK, SPONGE, SPONGE_DETAILS};
    use dappledome::base::shown::{Heat, Lengths};
    use dappledome::base::units::Mm;
    use dappledome::recipe::{Coat, Fall, Patches, Sponge, ThickAndThin};

    const METRIC: Units = Units { lengths: Lengths::Millimeters, heat: Heat::Celsius };
    const AMERICAN: Units = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };
    const COAT: Target = Target::Coat(7);

    fn labeled(fields: &'static [Field], label: &str) -> &'static Field {
        fields.iter().find(|field| field.label == label).expect(label)
    }

    fn with(fall: Fall) -> Recipe {
        Recipe { coats: vec![Coat::new(7, "straw", fall)], ..Recipe::bare() }
    }

    #[test]
    fn a_value_is_said_with_its_unit_and_its_word() {
        let says = |field: &Field, value| [METRIC, AMERICAN].map(|units| field.say(0, value, units));
        assert_eq!(says(&BLANK[0], 160.0), ["160 mm across", "6.3 in across"]);
        assert_eq!(says(&FUSE[0], 790.0), ["790 °C", "1454 °F"]);
        assert_eq!(says(&FUSE[1], 10.0), ["10 min"; 2]);
        assert_eq!(says(&FUSE[1], 80.0), ["1 h 20"; 2]);
        assert_eq!(says(&SPONGE[0], 0.16), ["damp, 0.16 mm", "damp, 0.006 in"]);
        assert_eq!(says(&SPONGE[2], 0.22), ["light, 22 %"; 2]);
        assert_eq!(says(&PATCHES[0], 0.45), ["0.45 mm", "0.018 in"], "the tile has the word on it");
    }

    #[test]
    fn the_ends_and_the_middle_have_words_of_their_own() {
        let rewet = labeled(SPONGE_DETAILS, "Re-wet every");
        let says = |field: &Field, value| field.say(0, value, METRIC);
        let never = rewet.thumbs[0].limit.most;
        assert_eq!([3.0, never].map(|value| says(rewet, value)), ["3 rolls", "never"]);
        let toward = labeled(PATCHES_DETAILS, "Toward");
        let said = [-0.4, 0.0, 0.4].map(|value| says(toward, value));
        assert_eq!(said, ["40 % to the crown", "anywhere", "40 % to the rim"]);
    }

    #[test]
    fn a_number_goes_without_its_unit() {
        assert_eq!(BLANK[0].number(160.0, AMERICAN), "6.3");
        assert_eq!(FUSE[0].number(790.0, AMERICAN), "1454");
        assert_eq!(SPONGE[2].number(0.22, METRIC), "22");
        let recipe = with(Fall::ThickAndThin(ThickAndThin {
            thinnest: Mm(0.1),
            thickest: Mm(0.8),
            ..ThickAndThin::usual()
        }));
        assert_eq!(THICK_AND_THIN[0].say_all(&recipe, COAT, METRIC), "0.1 to 0.8 mm");
        assert_eq!(PATCHES[0].say_all(&recipe, COAT, METRIC), "", "the coat does not fall in patches");
    }

    #[test]
    fn those_who_do_not_see_the_tile_hear_its_word() {
        assert_eq!(PATCHES[0].value_text(0, 0.15, METRIC), "0.15 mm, veil");
        assert_eq!(PATCHES[0].value_text(0, 3.0, METRIC), "3 mm", "not twice the same");
        assert_eq!(PATCHES[0].value_text(0, 3.0, AMERICAN), "0.118 in");
        assert_eq!(SPONGE[0].value_text(0, 0.16, METRIC), "damp, 0.16 mm");
    }

    #[test]
    fn half_a_step_from_usual_differs() {
        let coverage = &PATCHES[1];
        let limit = coverage.thumbs[0].limit;
        let differs = |by: f64| {
            let coverage_now = limit.usual + by * limit.step;
            coverage
                .differs(&with(Fall::Patches(Patches { coverage: coverage_now, ..Patches::usual() })), COAT)
        };
        assert_eq!([0.0, 0.4, 0.5, 1.0, -1.0].map(differs), [false, false, true, true, true]);
        assert!(!coverage.differs(&with(Fall::ThickAndThin(ThickAndThin::usual())), COAT));
        let rolls = labeled(SPONGE_DETAILS, "Roll width");
        let sponge = Sponge { roll_to: Mm(30.0), ..Sponge::default() };
        let recipe = Recipe { sponge: Some(sponge), ..Recipe::bare() };
        assert!(rolls.differs(&recipe, Target::Whole), "the second of two");
    }

    #[test]
    fn a_thumb_pushes_the_other_along() {
        let field = &THICK_AND_THIN[0];
        let mut recipe = with(Fall::ThickAndThin(ThickAndThin {
            thinnest: Mm(0.1),
            thickest: Mm(0.8),
            ..ThickAndThin::usual()
        }));
        let mut values = |at, value| {
            field.set(&mut recipe, COAT, at, value);
            [0, 1].map(|at| (field.thumbs[at].get)(&recipe, COAT))
        };
        assert_eq!(values(0, 0.4), [Some(0.4), Some(0.8)]);
        assert_eq!(values(0, 1.2), [Some(1.2), Some(1.2)]);
        assert_eq!(values(1, 0.3), [Some(0.3), Some(0.3)]);
        let mut recipe = Recipe { accents: Some(Default::default()), ..Recipe::bare() };
        ACCENTS[0].set(&mut recipe, Target::Whole, 1, 1.0);
        assert_eq!(ACCENTS[0].say_all(&recipe, Target::Whole, METRIC), "1 to 1 mm");
    }

    #[test]
    fn only_parts_of_a_coat_have_its_id() {
        assert_eq!([COAT, Target::CoatPart(7, 2)].map(Target::coat_id), [Some(7); 2]);
        assert_eq!([Target::Whole, Target::Sheet(1), Target::AccentPart(1)].map(Target::coat_id), [None; 3]);
    }
}
