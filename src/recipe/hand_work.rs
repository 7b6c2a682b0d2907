//! What was laid by hand belongs to the seed it was laid on: it is taken off the recipe when another seed is taken, kept
//! beside it, and laid on again when that seed comes back. The sisters never see it.

use super::by_hand::{AccentLayout, ByHand, MovedAccent, Rub};
use super::model::{Accents, Coat, Recipe};
use crate::base::data::data;
use crate::base::seed::Seed;
use serde::{Deserialize, Serialize};

data! {
    /// What was laid by hand on one seed.
    pub struct HandWork {
        /// The seed.
        pub seed: Seed,
        /// What was done to the patches of each coat.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub coats: Vec<CoatWork>,
        /// What was done to the accents.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub accents: Option<AccentWork>,
        /// What was rubbed off.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub sponged_off: Vec<Rub>,
    }
}

data! {
    /// What was done by hand to the patches of one coat.
    pub struct CoatWork {
        /// The coat's id.
        pub coat: u32,
        /// The seed of the fall that was moved about: a lock's, or the piece's own.
        pub fell: Seed,
        /// How often the coat had been sifted again.
        #[serde(default)]
        pub rerolls: u32,
        /// What was done.
        pub by_hand: ByHand,
    }
}

data! {
    /// What was done by hand to the accents.
    pub struct AccentWork {
        /// The seed of the fall that was moved about: a lock's, or the piece's own.
        pub fell: Seed,
        /// What was done; the lock is not part of it.
        pub layout: AccentLayout,
    }
}

impl HandWork {
    /// Whether nothing was laid by hand.
    pub fn is_empty(&self) -> bool {
        self.coats.is_empty() && self.accents.is_none() && self.sponged_off.is_empty()
    }
}

impl Recipe {
    /// Takes off everything that was laid by hand on this seed, and gives it.
    pub fn take_hand_work(&mut self, seed: Seed) -> HandWork {
        let coats = self.coats.iter_mut().filter_map(|coat| coat.take_hand_work(seed)).collect();
        let accents = self.accents.as_mut().and_then(|accents| accents.take_hand_work(seed));
        HandWork { seed, coats, accents, sponged_off: std::mem::take(&mut self.sponged_off) }
    }

    /// Lays on what was laid by hand on its seed. What was moved of another fall than the present one stays where it fell.
    pub fn lay_hand_work(&mut self, work: &HandWork) {
        for done in &work.coats {
            if let Some(coat) = self.coat_mut(done.coat) {
                coat.lay_hand_work(done, work.seed);
            }
        }
        if let (Some(accents), Some(done)) = (&mut self.accents, &work.accents) {
            accents.lay_hand_work(done, work.seed);
        }
        self.sponged_off.clone_from(&work.sponged_off);
    }

    /// The recipe as it is for every seed, with nothing laid by hand.
    pub fn without_hand_work(&self) -> Self {
        let mut bare = self.clone();
        bare.take_hand_work(Seed::default());
        bare
    }
}

impl Coat {
    fn take_hand_work(&mut self, seed: Seed) -> Option<CoatWork> {
        let by_hand = std::mem::take(&mut self.layout.by_hand);
        let fell = self.layout.locked_to.unwrap_or(seed);
        let rerolls = self.layout.rerolls;
        (!by_hand.is_empty()).then_some(CoatWork { coat: self.id, fell, rerolls, by_hand })
    }

    fn lay_hand_work(&mut self, done: &CoatWork, seed: Seed) {
        let layout = &mut self.layout;
        layout.by_hand.clone_from(&done.by_hand);
        if (layout.locked_to.unwrap_or(seed), layout.rerolls) != (done.fell, done.rerolls) {
            layout.by_hand.moved.clear();
        }
    }
}

impl Accents {
    fn take_hand_work(&mut self, seed: Seed) -> Option<AccentWork> {
        let locked_to = self.layout.locked_to;
        let bare = AccentLayout { locked_to, ..AccentLayout::default() };
        let done = AccentLayout { locked_to: None, ..std::mem::replace(&mut self.layout, bare) };
        (!done.is_empty()).then_some(AccentWork { fell: locked_to.unwrap_or(seed), layout: done })
    }

    fn lay_hand_work(&mut self, done: &AccentWork, seed: Seed) {
        let locked_to = self.layout.locked_to;
        let same = locked_to.unwrap_or(seed) == done.fell;
        let moved = if same { done.layout.moved.clone() } else { Vec::<MovedAccent>::new() };
        let taken_off = if same { done.layout.taken_off.clone() } else { Vec::new() };
        self.layout = AccentLayout { locked_to, moved, taken_off, added: done.layout.added.clone() };
    }
}

/// What was laid by hand on the seeds that a piece does not show at present, each seed once.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct HandWorks(Vec<HandWork>);

impl HandWorks {
    /// Whether nothing was laid by hand on any of them.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Turns a recipe that lies as one seed shows it to another one.
    pub fn turn(&mut self, recipe: &mut Recipe, from: Seed, to: Seed) {
        if from == to {
            return;
        }
        let left = recipe.take_hand_work(from);
        self.0.retain(|work| work.seed != from);
        if !left.is_empty() {
            self.0.push(left);
        }
        if let Some(at) = self.0.iter().position(|work| work.seed == to) {
            recipe.lay_hand_work(&self.0.remove(at));
        }
    }

    /// How a recipe that lies as one seed shows it lies on another: with what was laid by hand there, and nothing else.
    pub fn sister(&self, recipe: &Recipe, own: Seed, seed: Seed) -> Recipe {
        if seed == own {
            return recipe.clone();
        }
        let bare = recipe.without_hand_work();
        self.laid_on(&bare, seed).unwrap_or(bare)
    }

    /// A recipe without hand work as it lies on one of these seeds.
    pub fn laid_on(&self, bare: &Recipe, seed: Seed) -> Option<Recipe> {
        let work = self.0.iter().find(|work| work.seed == seed)?;
        let mut laid = bare.clone();
        laid.lay_hand_work(work);
        Some(laid)
    }

    /// Forgets what was done to coats and accents that a recipe does not have any more: later ones are others.
    pub fn forget_what_is_gone(&mut self, recipe: &Recipe) {
        for work in &mut self.0 {
            work.coats.retain(|done| recipe.coat(done.coat).is_some());
            work.accents.take_if(|_| recipe.accents.is_none());
        }
        self.0.retain(|work| !work.is_empty());
    }

    /// Each seed once: the later one counts, and the piece's own is not among them.
    pub(super) fn tidy(&mut self, own: Seed) {
        let mut seen = vec![own];
        self.0.reverse();
        self.0.retain(|work| {
            let new = !seen.contains(&work.seed) && !work.is_empty();
            seen.push(work.seed);
            new
        });
        self.0.reverse();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;
    use crate::recipe::by_hand::{WhichAccent, WhichPatch};
    use crate::recipe::demo;

    const OWN: Seed = Seed(41);
    const OTHER: Seed = Seed(47);

    /// A recipe with something of every kind laid by hand.
    fn laid() -> Recipe {
        let mut recipe = demo::ember_walk();
        assert!(recipe.coats[1].move_patch(WhichPatch::Fallen([1.0, 2.0]), [3.0, 4.0]));
        assert!(recipe.coats[1].add_patch([10.0, 0.0], Mm(18.0)));
        let accents = recipe.accents.get_or_insert_default();
        assert!(accents.take_off_accent(WhichAccent::Set(2)));
        assert!(accents.add_accent([5.0, 6.0], Mm(4.0), None));
        assert!(recipe.rub_off(Mm(8.0), &[[0.0, 0.0], [20.0, 3.0]]));
        recipe
    }

    fn bare() -> Recipe {
        let mut recipe = demo::ember_walk();
        recipe.accents.get_or_insert_default();
        recipe
    }

    #[test]
    fn another_seed_shows_nothing_of_it_and_its_own_brings_it_back() {
        let (mut recipe, mut works) = (laid(), HandWorks::default());
        works.turn(&mut recipe, OWN, OTHER);
        assert_eq!(recipe, bare());
        assert_eq!(works.laid_on(&recipe, OWN), Some(laid()));
        assert_eq!(works.laid_on(&recipe, OTHER), None);
        works.turn(&mut recipe, OTHER, OWN);
        assert_eq!((recipe, works.is_empty()), (laid(), true));
    }

    #[test]
    fn what_was_moved_of_another_fall_stays_where_it_fell() {
        type Change = fn(&mut Recipe);
        let changes: [Change; 2] = [
            |recipe| recipe.coats[1].sift_again(),
            |recipe| {
                recipe.coats[1].lock(OTHER);
                recipe.accents.as_mut().unwrap().layout.locked_to = Some(OTHER);
            },
        ];
        for (at, change) in changes.into_iter().enumerate() {
            let (mut recipe, mut works) = (laid(), HandWorks::default());
            works.turn(&mut recipe, OWN, OTHER);
            change(&mut recipe);
            works.turn(&mut recipe, OTHER, OWN);
            let hand = &recipe.coats[1].layout.by_hand;
            assert_eq!((hand.moved.len(), hand.added.len()), (0, 1), "{at}");
            let accents = &recipe.accents.as_ref().unwrap().layout;
            assert_eq!((accents.taken_off.len(), accents.added.len()), (1 - at, 1), "{at}");
            assert_eq!(recipe.sponged_off.len(), 1, "a rub is no fall's");
        }
    }

    #[test]
    fn a_lock_to_the_same_fall_loses_nothing() {
        let (mut recipe, mut works) = (laid(), HandWorks::default());
        recipe.coats[1].lock(OWN);
        works.turn(&mut recipe, OWN, OTHER);
        assert_eq!(recipe.coats[1].layout.locked_to, Some(OWN), "the lock is the recipe's");
        recipe.coats[1].unlock(OTHER);
        works.turn(&mut recipe, OTHER, OWN);
        assert_eq!(recipe, laid());
    }

    #[test]
    fn a_new_coat_does_not_inherit_what_was_done_to_an_old_one() {
        let (mut recipe, mut works) = (laid(), HandWorks::default());
        works.turn(&mut recipe, OWN, OTHER);
        let taken_out = recipe.coats.remove(1);
        let accents = recipe.accents.take();
        works.forget_what_is_gone(&recipe);
        recipe.coats.insert(1, taken_out);
        recipe.accents = accents;
        works.turn(&mut recipe, OTHER, OWN);
        assert!(recipe.coats[1].layout.by_hand.is_empty() && recipe.sponged_off.len() == 1);
        assert!(recipe.accents.unwrap().layout.is_empty());
    }

    #[test]
    fn of_two_works_on_one_seed_the_later_counts() {
        let work = |seed, x| HandWork {
            sponged_off: vec![Rub { width: Mm(4.0), path: vec![[x, 0.0]] }],
            ..bare().take_hand_work(Seed(seed))
        };
        let mut works = HandWorks(vec![work(1, 1.0), work(2, 2.0), work(1, 3.0), work(9, 4.0)]);
        works.tidy(Seed(9));
        assert_eq!(works.0, [work(2, 2.0), work(1, 3.0)]);
    }
}
