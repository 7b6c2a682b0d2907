//! Laying by hand: moving, taking off and adding patches and accents, and rubbing powder off. Places and ways are
//! given as they are on the disc, in mm. What has no room any more is not done: each says whether it was. All of it
//! belongs to the seed it was done on ([`super::hand_work`]), because with another fall the same places would mean other
//! patches.

use super::by_hand::{
    AccentLayout, AddedAccent, AddedPatch, ByHand, Goes, MovedAccent, MovedPatch, Place, Rub, WhichAccent,
    WhichPatch,
};
use super::lie::Lie;
use super::limits;
use super::model::{Accents, Coat, Recipe};
use crate::base::line::needed;
use crate::base::seed::Seed;
use crate::base::units::Mm;

impl Coat {
    /// Keeps the fall of this seed, unless one is kept already.
    pub fn lock(&mut self, seed: Seed) {
        self.layout.locked_to.get_or_insert(seed);
    }

    /// Lets the piece's seed decide again. What was moved of another seed's fall falls back.
    pub fn unlock(&mut self, seed: Seed) {
        let locked_to = self.layout.locked_to.take();
        if locked_to.is_some_and(|locked_to| locked_to != seed) {
            self.layout.by_hand.moved.clear();
        }
    }

    /// Sifts this coat again, for another fall of its own. What was moved falls back, because it was another fall's.
    pub fn sift_again(&mut self) {
        self.layout.rerolls = self.layout.rerolls.wrapping_add(1);
        self.layout.by_hand.moved.clear();
    }

    /// Moves a patch by so much on the disc, from where it lies now.
    pub fn move_patch(&mut self, which: WhichPatch, by: Place) -> bool {
        let by = self.way_in_layout(by);
        let hand = &mut self.layout.by_hand;
        match which {
            WhichPatch::Added(at) => {
                let Some(added) = hand.added.get_mut(at) else { return false };
                added.at = moved(added.at, by);
                true
            }
            WhichPatch::Fallen(at) => {
                let before = hand.moved.iter().find(|moved| moved.at == at).map(|moved| moved.goes);
                let way = if let Some(Goes::By(way)) = before { way } else { [0.0; 2] };
                hand.goes(at, Goes::By(moved(way, by)))
            }
        }
    }

    /// Puts a patch that was moved or taken off back where it fell.
    pub fn put_patch_back(&mut self, at: Place) {
        self.layout.by_hand.moved.retain(|moved| moved.at != at);
    }

    /// Takes a patch off.
    pub fn take_off_patch(&mut self, which: WhichPatch) -> bool {
        let hand = &mut self.layout.by_hand;
        match which {
            WhichPatch::Added(at) if at < hand.added.len() => {
                hand.added.remove(at);
                true
            }
            WhichPatch::Added(_) => false,
            WhichPatch::Fallen(at) => hand.goes(at, Goes::Off),
        }
    }

    /// Lays another patch so wide across with its middle here on the disc.
    pub fn add_patch(&mut self, middle: Place, across: Mm) -> bool {
        let (u, v) = Lie::new(&self.layout).to_layout(middle[0] as f32, middle[1] as f32);
        let added = &mut self.layout.by_hand.added;
        if added.len() >= limits::MOST_ADDED {
            return false;
        }
        // An outline that no other one has, so that no two are alike.
        let outline = added.iter().map(|other| other.outline).max().map_or(1, |most| most.wrapping_add(1));
        let across = Mm(within(across.0, limits::ADDED_ACROSS));
        added.push(AddedPatch { at: tidy([u.into(), v.into()]), across, outline });
        true
    }

    /// Lets every patch lie as it fell. The fall stays the one it was locked to.
    pub fn back_to_how_it_fell(&mut self) {
        self.layout.by_hand = ByHand::default();
    }

    fn way_in_layout(&self, by: Place) -> Place {
        let (u, v) = Lie::new(&self.layout).way_to_layout(by[0] as f32, by[1] as f32);
        [u.into(), v.into()]
    }
}

impl ByHand {
    /// Notes what becomes of the patch that fell here: instead of what was noted before, if anything was.
    fn goes(&mut self, at: Place, goes: Goes) -> bool {
        if let Some(known) = self.moved.iter().position(|moved| moved.at == at) {
            self.moved.remove(known);
        }
        if goes == Goes::By([0.0; 2]) {
            return true;
        }
        let room = self.moved.len() < limits::MOST_MOVED;
        if room {
            self.moved.push(MovedPatch { at, goes });
        }
        room
    }
}

impl Accents {
    /// Lays an accent here on the disc.
    pub fn move_accent(&mut self, which: WhichAccent, to: Place) -> bool {
        let [x, y] = tidy(to);
        let layout = &mut self.layout;
        match which {
            WhichAccent::Added(at) => {
                let Some(added) = layout.added.get_mut(at) else { return false };
                (added.x, added.y) = (x, y);
            }
            WhichAccent::Set(number) => {
                layout.moved.retain(|moved| moved.number != number);
                if layout.moved.len() >= limits::MOST_MOVED {
                    return false;
                }
                layout.moved.push(MovedAccent { number, x, y });
            }
        }
        true
    }

    /// Puts an accent that was moved or taken off back where it fell.
    pub fn put_accent_back(&mut self, number: u32) {
        self.layout.moved.retain(|moved| moved.number != number);
        self.layout.taken_off.retain(|off| *off != number);
    }

    /// Takes an accent off.
    pub fn take_off_accent(&mut self, which: WhichAccent) -> bool {
        let layout = &mut self.layout;
        match which {
            WhichAccent::Added(at) if at < layout.added.len() => {
                layout.added.remove(at);
            }
            WhichAccent::Added(_) => return false,
            WhichAccent::Set(number) => {
                layout.moved.retain(|moved| moved.number != number);
                if !layout.taken_off.contains(&number) {
                    if layout.taken_off.len() >= limits::MOST_TAKEN_OFF {
                        return false;
                    }
                    layout.taken_off.push(number);
                }
            }
        }
        true
    }

    /// Lays another accent of this size here on the disc; of the first glass if none is named.
    pub fn add_accent(&mut self, at: Place, size: Mm, glass: Option<String>) -> bool {
        if self.layout.added.len() >= limits::MOST_ADDED {
            return false;
        }
        let [x, y] = tidy(at);
        self.layout.added.push(AddedAccent { x, y, size: Mm(within(size.0, limits::GRADE)), glass });
        true
    }

    /// Lets every accent lie as it falls with the piece's seed.
    pub fn back_to_how_they_fell(&mut self) {
        self.layout = AccentLayout::default();
    }
}

impl Recipe {
    /// Rubs powder off along a path on the disc. Places that the path does not need are left out.
    pub fn rub_off(&mut self, width: Mm, path: &[Place]) -> bool {
        let width = Mm(within(width.0, limits::RUB_WIDTH));
        let rub = Rub { width, path: simplified(path) };
        let count = |of: fn(&Rub) -> f64| self.sponged_off.iter().chain([&rub]).map(of).sum::<f64>();
        let room = !rub.path.is_empty()
            && self.sponged_off.len() < limits::MOST_RUBS
            && count(|rub| rub.path.len() as f64) <= limits::MOST_PLACES_RUBBED as f64
            && count(Rub::passes_over) <= limits::MOST_RUBBED;
        if room {
            self.sponged_off.push(rub);
        }
        room
    }
}

/// Most places of a path that are looked at, spread evenly over it.
const MOST_LOOKED_AT: usize = 2000;

/// How far a path may be left to have few enough places, mm: farther off it would be another path.
const LOOSEST: f32 = 2.0;

/// A path through only the places it needs; empty if those are too many for one rub.
fn simplified(path: &[Place]) -> Vec<Place> {
    // Looking for the needed places takes the square of their number when a path is a scribble.
    let every = path.len().div_ceil(MOST_LOOKED_AT).max(1);
    let last = path.len().saturating_sub(1);
    let looked_at = path.iter().enumerate().filter(|(at, _)| at % every == 0 || *at == last);
    let places: Vec<Place> = looked_at.map(|(_, place)| tidy(*place)).collect();
    let points: Vec<[f32; 2]> = places.iter().map(|place| place.map(|mm| mm as f32)).collect();
    // Far below what the ragged edge hides; a path that still has too many places is followed less closely.
    let mut tolerance = 0.1;
    while tolerance < LOOSEST {
        let kept = needed(&points, tolerance);
        if kept.iter().filter(|kept| **kept).count() <= limits::MOST_RUB_PLACES {
            return places.into_iter().zip(kept).filter(|(_, kept)| *kept).map(|(place, _)| place).collect();
        }
        tolerance *= 1.5;
    }
    Vec::new()
}

fn moved(from: Place, by: Place) -> Place {
    tidy([from[0] + by[0], from[1] + by[1]])
}

/// A place to a hundredth of a millimeter and within reach, so that files stay short and recipes sound.
fn tidy(place: Place) -> Place {
    // Adding zero makes the negative one positive.
    place.map(|mm| (within(mm, limits::PLACE) * 100.0).round() / 100.0 + 0.0)
}

/// The nearest value within a limit; its usual one for what is no number.
fn within(value: f64, limit: limits::Limit) -> f64 {
    if value.is_nan() { limit.usual } else { value.clamp(limit.least, limit.most) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::scalar::sin_cos;
    use crate::base::units::Degrees;
    use crate::recipe::plan::Plan;
    use crate::recipe::{Fall, Patches, file};

    fn coat() -> Coat {
        Coat::new(1, "rust", Fall::Patches(Patches::usual()))
    }

    #[test]
    fn ways_on_the_disc_are_kept_as_ways_in_the_layout() {
        let mut coat = coat();
        coat.layout.turned = Degrees(90.0);
        coat.layout.moved_up = Mm(30.0);
        let which = WhichPatch::Fallen([5.0, 6.0]);
        assert!(coat.move_patch(which, [10.0, 0.0]));
        assert!(coat.move_patch(which, [0.0, 2.0]), "moved on from there");
        assert_eq!(coat.layout.by_hand.moved, [MovedPatch { at: [5.0, 6.0], goes: Goes::By([2.0, -10.0]) }]);
        assert_eq!(coat.layout.locked_to, None, "it belongs to its seed; the sisters fall as they did");
        assert!(coat.move_patch(which, [-10.0, -2.0]), "back again");
        assert!(coat.layout.by_hand.is_empty());
    }

    #[test]
    fn patches_come_and_go() {
        let mut coat = coat();
        coat.layout.moved_right = Mm(10.0);
        assert!(coat.add_patch([30.0, 1.0], Mm(18.0)));
        assert!(coat.add_patch([-30.0, 1.0], Mm(1e9)));
        let added = &coat.layout.by_hand.added;
        assert_eq!((added[0].at, added[0].outline, added[1].outline), ([20.0, 1.0], 1, 2));
        assert_eq!(added[1].across.0, limits::ADDED_ACROSS.most);
        assert!(coat.move_patch(WhichPatch::Added(0), [1.0, 2.0]));
        assert_eq!(coat.layout.by_hand.added[0].at, [21.0, 3.0]);
        assert!(coat.take_off_patch(WhichPatch::Added(0)));
        assert!(!coat.take_off_patch(WhichPatch::Added(1)), "there is none");
        assert!(coat.take_off_patch(WhichPatch::Fallen([0.0, 0.0])));
        assert_eq!(coat.layout.by_hand.moved[0].goes, Goes::Off);
        coat.put_patch_back([0.0, 0.0]);
        assert!(coat.layout.by_hand.moved.is_empty());
        assert!(coat.take_off_patch(WhichPatch::Fallen([0.0, 0.0])));
        coat.back_to_how_it_fell();
        assert!(coat.layout.by_hand.is_empty());
    }

    #[test]
    fn another_fall_forgets_what_was_moved_and_keeps_what_was_added() {
        let unlock: fn(&mut Coat) = |coat| coat.unlock(Seed(2));
        for change in [unlock, Coat::sift_again] {
            let mut coat = coat();
            coat.lock(Seed(1));
            assert!(coat.move_patch(WhichPatch::Fallen([1.0, 2.0]), [3.0, 4.0]));
            assert!(coat.add_patch([30.0, 1.0], Mm(18.0)));
            change(&mut coat);
            assert!(coat.layout.by_hand.moved.is_empty() && coat.layout.by_hand.added.len() == 1);
        }
    }

    #[test]
    fn the_same_fall_keeps_what_was_moved_when_its_lock_goes() {
        let mut coat = coat();
        coat.lock(Seed(1));
        assert!(coat.move_patch(WhichPatch::Fallen([1.0, 2.0]), [3.0, 4.0]));
        coat.unlock(Seed(1));
        assert_eq!((coat.layout.by_hand.moved.len(), coat.layout.locked_to), (1, None));
    }

    #[test]
    fn accents_come_and_go() {
        let mut accents = Accents::default();
        assert!(accents.move_accent(WhichAccent::Set(2), [10.0, 20.004]));
        assert!(accents.move_accent(WhichAccent::Set(2), [11.0, 20.0]));
        assert_eq!(accents.layout.moved, [MovedAccent { number: 2, x: 11.0, y: 20.0 }]);
        assert!(accents.take_off_accent(WhichAccent::Set(2)));
        assert!(accents.layout.moved.is_empty() && accents.layout.taken_off == [2]);
        assert!(accents.add_accent([1.0, 2.0], Mm(4.0), None));
        assert!(accents.move_accent(WhichAccent::Added(0), [3.0, 2.0]));
        assert!(!accents.move_accent(WhichAccent::Added(1), [3.0, 2.0]));
        assert_eq!((accents.layout.added[0].x, accents.layout.locked_to), (3.0, None));
        assert!(accents.take_off_accent(WhichAccent::Added(0)));
        accents.put_accent_back(2);
        assert!(accents.layout.taken_off.is_empty());
        accents.back_to_how_they_fell();
        assert!(accents.layout.is_empty());
    }

    #[test]
    fn there_is_room_for_so_many_and_what_is_laid_is_sound() {
        let mut recipe = Recipe::bare();
        let (mut coat, mut accents) = (coat(), Accents::default());
        for i in 0..200 {
            let far = f64::from(i + 1) * 1e7;
            let fits = i < 64;
            assert_eq!(coat.move_patch(WhichPatch::Fallen([f64::from(i), 0.0]), [far, -far]), fits);
            assert_eq!(coat.add_patch([f64::NAN, far], Mm(20.0)), fits);
            assert_eq!(accents.move_accent(WhichAccent::Set(i), [0.0, 0.0]), fits);
        }
        // A wave's crests need more places than a rub may have; a spiral of as many points does not.
        let wave: Vec<Place> =
            (0..9000).map(|i| [f64::from(i) * 0.01, if i % 10 < 5 { 20.0 } else { -20.0 }]).collect();
        assert!(!recipe.rub_off(Mm(3.0), &wave), "it is no longer that wave with fewer");
        let turn = |i: i32| {
            let (sin, cos) = sin_cos(f64::from(i) * 0.005);
            [cos * f64::from(i) * 0.005, sin * f64::from(i) * 0.005]
        };
        let spiral: Vec<Place> = (0..9000).map(turn).collect();
        let rubs = (0..3).filter(|_| recipe.rub_off(Mm(3.0), &spiral)).count();
        assert!(rubs == 3 && recipe.sponged_off.iter().all(|rub| rub.path.len() <= limits::MOST_RUB_PLACES));
        let line = [[0.0, 0.0], [10.0, 0.01], [20.0, 0.0]];
        let rubs = rubs + (0..300).filter(|_| recipe.rub_off(Mm(3.0), &line)).count();
        assert_eq!(rubs, limits::MOST_RUBS);
        assert_eq!(recipe.sponged_off[rubs - 1].path.len(), 2, "a straight line needs its ends");
        assert!(!recipe.rub_off(Mm(3.0), &[]));
        recipe.coats.push(coat);
        recipe.accents = Some(accents);
        assert!(Plan::new(&recipe).is_ok());
        // The fullest recipe can still be saved and opened.
        recipe.coats = (0..12).map(|id| Coat { id, ..recipe.coats[0].clone() }).collect();
        let zigzag = |i: u32| [f64::from(i) + 0.25, f64::from(i % 2) * 40.25];
        let rub = Rub { width: Mm(3.25), path: (0..40).map(zigzag).collect() };
        recipe.sponged_off = vec![rub; 200];
        assert!(Plan::new(&recipe).is_ok());
        assert_eq!(file::read(&file::write(&recipe)), Ok(recipe));
    }
}
