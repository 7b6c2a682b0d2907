//! What the hand does to a recipe.

use super::things::Which;
use dappledome::base::units::Degrees;
use dappledome::recipe::{Coat, Place, Recipe};

/// Moves a thing from where its middle lay by so much on the disc, mm: a patch of the coat with this id, or an accent. What
/// has no room any more stays where it is; says whether it was moved.
pub fn move_thing(recipe: &mut Recipe, coat: Option<u32>, which: Which, middle: [f32; 2], by: Place) -> bool {
    match which {
        Which::Patch(patch) => coat_of(recipe, coat).is_some_and(|coat| coat.move_patch(patch, by)),
        Which::Accent(accent) => {
            let to = [f64::from(middle[0]) + by[0], f64::from(middle[1]) + by[1]];
            recipe.accents.as_mut().is_some_and(|accents| accents.move_accent(accent, to))
        }
    }
}

/// Takes a thing off; says whether it was taken.
pub fn take_off(recipe: &mut Recipe, coat: Option<u32>, which: Which) -> bool {
    match which {
        Which::Patch(patch) => coat_of(recipe, coat).is_some_and(|coat| coat.take_off_patch(patch)),
        Which::Accent(accent) => {
            recipe.accents.as_mut().is_some_and(|accents| accents.take_off_accent(accent))
        }
    }
}

/// Turns the coat with this id so far, degrees.
pub fn turn_to(recipe: &mut Recipe, coat: Option<u32>, degrees: f64) {
    if let Some(coat) = coat_of(recipe, coat) {
        coat.layout.turned = Degrees(degrees.rem_euclid(360.0));
    }
}

fn coat_of(recipe: &mut Recipe, id: Option<u32>) -> Option<&mut Coat> {
    recipe.coat_mut(id?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::{WhichAccent, WhichPatch, demo};

    const PATCH: Which = Which::Patch(WhichPatch::Fallen([3.0, 4.0]));

    fn recipe() -> (Recipe, u32) {
        let recipe = demo::all().into_iter().next().expect("there is a first one");
        let id = recipe.coats[0].id;
        (recipe, id)
    }

    #[test]
    fn a_patch_of_the_open_coat_is_moved_and_taken_off() {
        let (mut recipe, id) = recipe();
        let before = recipe.clone();
        assert!(!move_thing(&mut recipe, None, PATCH, [0.0; 2], [1.0, 0.0]));
        assert_eq!(recipe, before, "no coat is open");
        assert!(move_thing(&mut recipe, Some(id), PATCH, [0.0; 2], [1.0, 0.0]));
        assert_eq!(recipe.coats[0].layout.by_hand.moved.len(), 1);
        assert_eq!(recipe.coats[0].layout.locked_to, None, "the sisters fall as they did");
        assert!(take_off(&mut recipe, Some(id), PATCH));
        assert_eq!(recipe.coats[0].layout.by_hand.moved.len(), 1, "the later one counts");
    }

    #[test]
    fn an_accent_goes_from_where_it_lay() {
        let (mut recipe, _) = recipe();
        recipe.accents = demo::all().into_iter().find_map(|recipe| recipe.accents);
        let which = Which::Accent(WhichAccent::Set(1));
        assert!(move_thing(&mut recipe, None, which, [10.0, 20.0], [1.0, -2.0]));
        let moved = recipe.accents.expect("they are there").layout.moved[0];
        assert_eq!((moved.x, moved.y), (11.0, 18.0));
    }

    #[test]
    fn a_coat_is_turned_within_a_whole_turn() {
        let (mut recipe, id) = recipe();
        turn_to(&mut recipe, Some(id), -15.0);
        assert_eq!(recipe.coats[0].layout.turned, Degrees(345.0));
    }
}
