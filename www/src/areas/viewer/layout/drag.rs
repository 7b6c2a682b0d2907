//! A drag under way, as plain data: a patch or an accent, the knob of the coat, the sponge.

use super::changes::{move_thing, turn_to};
use super::things::Which;
use dappledome::base::scalar::atan2;
use dappledome::base::units::Mm;
use dappledome::recipe::{Place, Recipe};

/// A pointer that moved less than this, px, has tapped.
const TAP: i32 = 5;

/// What the hand has hold of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grip {
    /// A patch or an accent, from where its middle lay.
    Move(Which, [f32; 2]),
    /// The knob, from this turn of the coat, degrees.
    Turn(f64),
    /// The sponge, so wide, mm.
    Rub(f64),
}

/// Where the hand is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// The number of the pointer; none if it is moved by keys.
    pub pointer: Option<i32>,
    /// Where on the screen, px.
    pub px: (i32, i32),
    /// Where in the picture, as shares of its side.
    pub seen: (f32, f32),
    /// Where on the disc, mm.
    pub place: [f32; 2],
}

/// A drag under way.
#[derive(Clone, Debug)]
pub struct Drag {
    /// What is held.
    pub grip: Grip,
    /// The number of the pointer; none if it is moved by keys.
    pub pointer: Option<i32>,
    /// Where the hand is in the picture, as shares of its side.
    pub seen: (f32, f32),
    /// How far it went, mm on the disc.
    pub by: [f32; 2],
    /// Whether it went farther than a tap.
    pub moved: bool,
    start: (i32, i32),
    from: [f32; 2],
    path: Vec<Place>,
    before: Recipe,
}

impl Drag {
    /// Takes hold of something of a recipe.
    pub fn new(grip: Grip, at: &Contact, before: Recipe) -> Self {
        Self {
            grip,
            pointer: at.pointer,
            seen: at.seen,
            by: [0.0; 2],
            moved: at.pointer.is_none(),
            start: at.px,
            from: at.place,
            path: Vec::new(),
            before,
        }
    }

    /// Goes on to where the hand is.
    pub fn pull(&mut self, to: &Contact) {
        let far = (to.px.0 - self.start.0).abs().max((to.px.1 - self.start.1).abs());
        self.moved |= far >= TAP;
        self.seen = to.seen;
        self.by = [to.place[0] - self.from[0], to.place[1] - self.from[1]];
    }

    /// Lengthens the stroke of the sponge.
    pub fn rub(&mut self, place: [f32; 2]) {
        self.path.push(place.map(f64::from));
        self.moved = true;
    }

    /// How far the coat is turned now, whole degrees.
    pub fn turned(&self) -> f64 {
        let Grip::Turn(was) = self.grip else { return 0.0 };
        let angle = |[x, y]: [f32; 2]| atan2(f64::from(y), f64::from(x)).to_degrees();
        let to = [self.from[0] + self.by[0], self.from[1] + self.by[1]];
        (was + angle(to) - angle(self.from)).round().rem_euclid(360.0)
    }

    /// Makes a recipe what it was when the drag began, with what the drag does to it; the coat with this id is open.
    pub fn apply(&self, recipe: &mut Recipe, coat: Option<u32>) {
        recipe.clone_from(&self.before);
        match self.grip {
            Grip::Move(which, middle) => {
                // What has no room any more stays where it is.
                let _ = move_thing(recipe, coat, which, middle, self.by.map(f64::from));
            }
            Grip::Turn(_) => turn_to(recipe, coat, self.turned()),
            Grip::Rub(width) => {
                // A bed that was rubbed more than enough takes no more.
                let _ = recipe.rub_off(Mm(width), &self.path);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Degrees;
    use dappledome::recipe::{WhichPatch, demo};

    fn at(px: (i32, i32), place: [f32; 2]) -> Contact {
        Contact { pointer: Some(1), px, seen: (0.5, 0.5), place }
    }

    fn recipe() -> (Recipe, Option<u32>) {
        let recipe = demo::all().into_iter().next().expect("there is a first one");
        let id = recipe.coats[0].id;
        (recipe, Some(id))
    }

    #[test]
    fn a_drag_begins_beyond_a_tap_and_does_not_end_where_it_began() {
        let mut drag = Drag::new(Grip::Turn(0.0), &at((10, 10), [0.0, 80.0]), recipe().0);
        drag.pull(&at((14, 6), [1.0, 80.0]));
        assert!(!drag.moved);
        drag.pull(&at((10, 15), [0.0, 79.0]));
        drag.pull(&at((10, 10), [0.0, 80.0]));
        assert!(drag.moved);
        assert_eq!(drag.by, [0.0; 2]);
    }

    #[test]
    fn what_keys_move_has_moved_at_once() {
        let keys = Contact { pointer: None, ..at((0, 0), [0.0; 2]) };
        assert!(Drag::new(Grip::Rub(8.0), &keys, recipe().0).moved);
    }

    #[test]
    fn the_knob_turns_by_whole_degrees_from_where_it_was() {
        let mut drag = Drag::new(Grip::Turn(350.0), &at((0, 0), [80.0, 0.0]), recipe().0);
        drag.pull(&at((0, 50), [0.0, 80.0]));
        assert_eq!(drag.turned(), 80.0);
        let (mut recipe, id) = recipe();
        drag.apply(&mut recipe, id);
        assert_eq!(recipe.coats[0].layout.turned, Degrees(80.0));
    }

    #[test]
    fn every_pull_starts_from_how_the_recipe_was() {
        let (mut recipe, id) = recipe();
        let grip = Grip::Move(Which::Patch(WhichPatch::Fallen([3.0, 4.0])), [3.0, 4.0]);
        let mut drag = Drag::new(grip, &at((0, 0), [0.0; 2]), recipe.clone());
        drag.pull(&at((50, 0), [5.0, 0.0]));
        drag.apply(&mut recipe, id);
        let once = recipe.clone();
        drag.apply(&mut recipe, id);
        assert_eq!(recipe, once);
        assert_eq!(recipe.coats[0].layout.by_hand.moved.len(), 1);
    }

    #[test]
    fn a_stroke_is_one_rub() {
        let (mut recipe, id) = recipe();
        let mut drag = Drag::new(Grip::Rub(16.0), &at((0, 0), [0.0; 2]), recipe.clone());
        for x in [0.0, 20.0, 40.0] {
            drag.rub([x, x]);
            drag.apply(&mut recipe, id);
        }
        assert_eq!(recipe.sponged_off.len(), 1);
        assert_eq!(recipe.sponged_off[0].width, Mm(16.0));
        assert_eq!(recipe.sponged_off[0].path.last(), Some(&[40.0, 40.0]));
    }
}
