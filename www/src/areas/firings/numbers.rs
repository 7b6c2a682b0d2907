//! The numbers of a segment as they are set: how far each goes, and where in the recipe it stands.

use crate::fields::firings::{FUSE, SINK, TACK};
use crate::fields::types::{Field, Target, Unit};
use crate::words;
use dappledome::base::firing::{Firing, SegmentName};
use dappledome::base::shown::Units;
use dappledome::base::units::{Celsius, Minutes};
use dappledome::kiln::segment::Segment;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Pace, Recipe, SetSegment, segment_limits};

/// A number of a segment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// How fast it runs.
    Rate,
    /// Where to.
    To,
    /// How long it is held there.
    Hold,
}

/// All of them, in order.
pub const PLACES: [Place; 3] = [Place::Rate, Place::To, Place::Hold];

/// A rate on a scale that reaches one step further, where *as it goes* stands.
const RATE_OR_FREE: Limit = Limit { most: limits::RATE.most + limits::RATE.step, ..limits::RATE };

/// A segment of a firing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Which {
    /// The firing.
    pub firing: Firing,
    /// The segment.
    pub segment: SegmentName,
}

impl Which {
    /// How a number is said and how far it goes; none if it follows from the rest.
    pub fn range(self, place: Place) -> Option<(Unit, Limit)> {
        if let Some(field) = self.field(place) {
            return Some((field.unit, field.thumbs[0].limit));
        }
        let (rate, to, hold) = segment_limits(self.segment);
        match place {
            Place::Rate => rate.map(|_| (Unit::Rate, RATE_OR_FREE)),
            Place::To => to.map(|limit| (Unit::Celsius, limit)),
            Place::Hold => hold.map(|limit| (Unit::Minutes, limit)),
        }
    }

    /// Top and hold of the process, which are fields of the recipe like any other.
    fn field(self, place: Place) -> Option<&'static Field> {
        let fields = match self.firing {
            Firing::FullFuse => FUSE,
            Firing::TackFuse => TACK,
            Firing::Slump => SINK,
        };
        match (self.segment, place) {
            (SegmentName::Process, Place::To) => fields.first(),
            (SegmentName::Process, Place::Hold) => fields.get(1),
            _ => None,
        }
    }

    /// Whether the maker has set a number.
    pub fn is_yours(self, recipe: &Recipe, place: Place) -> bool {
        if let Some(field) = self.field(place) {
            return field.differs(recipe, Target::Whole);
        }
        let mut set = recipe.programs.of(self.firing).iter().filter(|set| set.segment == self.segment);
        set.any(|set| match place {
            Place::Rate => set.pace.is_some(),
            Place::To => set.to.is_some(),
            Place::Hold => set.hold.is_some(),
        })
    }

    /// Sets a number, or lets it be as usual.
    pub fn set(self, recipe: &mut Recipe, place: Place, value: Option<f64>) {
        if let Some(field) = self.field(place) {
            let value = value.unwrap_or(field.thumbs[0].limit.usual);
            field.set(recipe, Target::Whole, 0, value);
            return;
        }
        let set = recipe.programs.segment_mut(self.firing, self.segment);
        match place {
            Place::Rate => set.pace = value.map(pace),
            Place::To => set.to = value.map(Celsius),
            Place::Hold => set.hold = value.map(Minutes),
        }
        if is_empty(set) {
            recipe.programs.let_be(self.firing, self.segment);
        }
    }
}

fn is_empty(set: &SetSegment) -> bool {
    set.pace.is_none() && set.to.is_none() && set.hold.is_none()
}

fn pace(rate: f64) -> Pace {
    if rate >= RATE_OR_FREE.most { Pace::AsItGoes } else { Pace::PerHour(rate) }
}

fn rate(pace: Pace) -> f64 {
    match pace {
        Pace::PerHour(rate) => rate,
        Pace::AsItGoes => RATE_OR_FREE.most,
    }
}

/// A number as the program has it, and as it usually is.
pub fn values(segment: &Segment, place: Place) -> (f64, f64) {
    match place {
        Place::Rate => (rate(segment.pace.value), rate(segment.pace.usual)),
        Place::To => (segment.to.value.0, segment.to.usual.0),
        Place::Hold => (segment.hold.value.0, segment.hold.usual.0),
    }
}

/// A number as a table has it, in these units; nothing where a segment has none.
pub fn said(which: Which, segment: &Segment, place: Place, units: Units) -> String {
    match (which.range(place), place) {
        (Some((unit, limit)), _) => unit.say(values(segment, place).0, &limit, units),
        (None, Place::To) => units.text(&segment.to.value.to_string()),
        (None, Place::Rate) if which.segment == SegmentName::Off => words::AS_IT_GOES.into(),
        (None, Place::Rate | Place::Hold) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::plan::Plan;

    const EVERY: [SegmentName; 8] = [
        SegmentName::Heat,
        SegmentName::Squeeze,
        SegmentName::Process,
        SegmentName::Fall,
        SegmentName::Anneal,
        SegmentName::Cool,
        SegmentName::SecondCool,
        SegmentName::Off,
    ];

    #[test]
    fn every_number_that_can_be_set_makes_a_recipe_and_is_taken_back_without_a_trace() {
        let mut count = 0;
        for segment in EVERY {
            for place in PLACES {
                let which = Which { firing: Firing::FullFuse, segment };
                let Some((_, limit)) = which.range(place) else { continue };
                count += 1;
                for value in [limit.least, limit.most] {
                    let mut recipe = Recipe::bare();
                    which.set(&mut recipe, place, Some(value));
                    assert!(which.is_yours(&recipe, place), "{segment:?} {place:?}");
                    assert!(Plan::new(&recipe).is_ok(), "{segment:?} {place:?} {value}");
                    which.set(&mut recipe, place, None);
                    assert_eq!(recipe, Recipe::bare(), "{segment:?} {place:?}");
                }
            }
        }
        // Four segments have all three, the process too, the fall its rate, the anneal two, off one.
        assert_eq!(count, 4 * 3 + 3 + 1 + 2 + 1);
    }

    #[test]
    fn beyond_the_fastest_rate_a_segment_runs_as_it_goes() {
        let which = Which { firing: Firing::Slump, segment: SegmentName::Heat };
        let mut recipe = Recipe::bare();
        let set = |recipe: &Recipe| recipe.programs.slump.first().and_then(|set| set.pace);
        which.set(&mut recipe, Place::Rate, Some(limits::RATE.most));
        assert_eq!(set(&recipe), Some(Pace::PerHour(1000.0)));
        which.set(&mut recipe, Place::Rate, Some(RATE_OR_FREE.most));
        assert_eq!(set(&recipe), Some(Pace::AsItGoes));
        assert_eq!(rate(Pace::AsItGoes), RATE_OR_FREE.most);
    }

    #[test]
    fn top_and_hold_are_those_of_the_recipe() {
        let mut recipe = Recipe::bare();
        let which = Which { firing: Firing::FullFuse, segment: SegmentName::Process };
        which.set(&mut recipe, Place::To, Some(800.0));
        assert_eq!((recipe.fuse.top, recipe.programs.is_empty()), (Celsius(800.0), true));
        let slump = Which { firing: Firing::Slump, ..which };
        slump.set(&mut recipe, Place::Hold, Some(7.0));
        assert_eq!(recipe.slump.hold, Some(Minutes(7.0)));
        slump.set(&mut recipe, Place::Hold, None);
        assert_eq!(recipe.slump.hold, None);
    }
}
