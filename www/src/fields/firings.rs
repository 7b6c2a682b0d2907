//! The fields of the three firings: tops and holds. What else a program has is set in its table.

use super::shorthand::{field, thumb};
use super::types::{Field, Target, Thumb, Unit};
use dappledome::base::units::Minutes;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Recipe, TackFuse};

fn whole(recipe: &Recipe, _: Target) -> Option<&Recipe> {
    Some(recipe)
}

fn whole_mut(recipe: &mut Recipe, _: Target) -> Option<&mut Recipe> {
    Some(recipe)
}

fn tack(recipe: &Recipe, _: Target) -> Option<&TackFuse> {
    recipe.accents.as_ref().map(|accents| &accents.tack)
}

fn tack_mut(recipe: &mut Recipe, _: Target) -> Option<&mut TackFuse> {
    recipe.accents.as_mut().map(|accents| &mut accents.tack)
}

/// The full fuse.
pub const FUSE: &[Field] = &[
    field!("Top", Celsius, limits::FUSE_TOP, whole, whole_mut, r => r.fuse.top.0),
    field!("Hold", Minutes, limits::FUSE_HOLD, whole, whole_mut, r => r.fuse.hold.0),
];

/// The tack fuse, which the accents end with.
pub const TACK: &[Field] = &[
    field!("Top", Celsius, limits::TACK_TOP, tack, tack_mut, t => t.top.0),
    field!("Hold", Minutes, limits::TACK_HOLD, tack, tack_mut, t => t.hold.0),
];

/// The hold of a slump on a scale that reaches one step further, where *full* stands.
pub const HOLD_OR_FULL: Limit =
    Limit { most: limits::SLUMP_HOLD.most + 1.0, usual: limits::SLUMP_HOLD.most + 1.0, ..limits::SLUMP_HOLD };

/// The firing that lets the disc sink.
pub const SINK: &[Field] = &[
    field!("Top", Celsius, limits::SLUMP_TOP, whole, whole_mut, r => r.slump.top.0),
    Field {
        label: "Hold",
        unit: Unit::Settling,
        thumbs: &[Thumb {
            name: "",
            limit: HOLD_OR_FULL,
            get: |recipe, _| Some(recipe.slump.hold.map_or(HOLD_OR_FULL.most, |hold| hold.0)),
            set: |recipe, _, value| {
                recipe.slump.hold = (value < HOLD_OR_FULL.most).then_some(Minutes(value));
            },
        }],
        words: &[],
        tile: false,
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::marks::marks;
    use dappledome::base::shown::Units;

    #[test]
    fn a_slump_is_held_so_long_or_until_it_is_full() {
        let [_, hold] = SINK else { panic!("a top and a hold") };
        let mut recipe = Recipe::bare();
        let said = |recipe: &Recipe| hold.say_all(recipe, Target::Whole, Units::default());
        assert_eq!(said(&recipe), "full");
        hold.set(&mut recipe, Target::Whole, 0, 22.0);
        assert_eq!((recipe.slump.hold, said(&recipe)), (Some(Minutes(22.0)), "22 min".into()));
        assert!(hold.differs(&recipe, Target::Whole));
        hold.set(&mut recipe, Target::Whole, 0, 120.0);
        assert_eq!(said(&recipe), "2 h 00", "the longest hold is still a number");
        hold.set(&mut recipe, Target::Whole, 0, HOLD_OR_FULL.most);
        assert_eq!((recipe.slump.hold, hold.differs(&recipe, Target::Whole)), (None, false));
        assert_eq!(marks(hold, Units::default()).last().map(|mark| mark.label.as_str()), Some("full"));
    }

    #[test]
    fn a_tack_fuse_is_there_with_the_accents() {
        let mut recipe = Recipe::bare();
        TACK[0].set(&mut recipe, Target::Whole, 0, 750.0);
        assert_eq!((TACK[0].thumbs[0].get)(&recipe, Target::Whole), None);
        recipe.accents = Some(Default::default());
        TACK[0].set(&mut recipe, Target::Whole, 0, 750.0);
        assert_eq!((TACK[0].thumbs[0].get)(&recipe, Target::Whole), Some(750.0));
    }
}
