//! Coats that lie together, one exactly on the other: of one fall and one layout, each of its own powder and depth.

use super::limits::{EVEN_DEPTH, Limit, PATCH_DEPTH, THICKEST, THINNEST};
use super::model::{Coat, Fall, Recipe};
use crate::base::units::Mm;

/// Where between its thinnest and its thickest a thick and thin coat has the depth that stands for it.
const BETWEEN: f64 = 0.3;

impl Fall {
    /// The middling depth, which stands for it, mm of loose powder.
    pub fn middling(&self) -> f64 {
        match self {
            Self::Even { depth } => depth.0,
            Self::Patches(patches) => patches.depth.0,
            Self::ThickAndThin(range) => {
                let (thin, thick) = (range.thinnest.0, range.thickest.0);
                thin + (thick - thin) * BETWEEN
            }
        }
    }

    /// Lets it fall so deep in the middle, as far as its limits go; thick and thin keep their ratio.
    pub fn set_middling(&mut self, deep: f64) {
        let times = deep / self.middling();
        let within = |depth: f64, limit: Limit| Mm(depth.clamp(limit.least, limit.most));
        match self {
            Self::Even { depth } => *depth = within(deep, EVEN_DEPTH),
            Self::Patches(patches) => patches.depth = within(deep, PATCH_DEPTH),
            Self::ThickAndThin(range) => {
                range.thinnest = within(range.thinnest.0 * times, THINNEST);
                range.thickest = within(range.thickest.0 * times, THICKEST);
            }
        }
    }
}

impl Coat {
    /// The coat by whose chance it falls: itself, or the one that it lies together with.
    pub fn falls_by(&self) -> u32 {
        self.layout.falls_with.unwrap_or(self.id)
    }

    /// The same coat once more, to lie on this one under an id of its own.
    pub fn another_on_it(&self, id: u32) -> Self {
        let mut other = Self { id, ..self.clone() };
        other.layout.falls_with = Some(self.falls_by());
        other
    }

    /// Whether two coats, or one before and after a change, lie alike but for depth.
    fn lies_like(&self, other: &Self) -> bool {
        self.as_it_lies(other) == *other
    }

    /// Another coat as it would lie like this one: its own powder and depth.
    fn as_it_lies(&self, other: &Self) -> Self {
        let mut like = Self { id: other.id, powder: other.powder.clone(), ..self.clone() };
        like.layout.falls_with = other.layout.falls_with;
        like.fall.set_middling(other.fall.middling());
        like
    }
}

impl Recipe {
    /// Another coat that lies together with this one, if there is any.
    pub fn beside(&self, id: u32) -> Option<&Coat> {
        let falls_by = self.coat(id)?.falls_by();
        self.coats.iter().find(|coat| coat.id != id && coat.falls_by() == falls_by)
    }

    /// Lets this coat, and those that lie together with it, each fall by itself.
    pub fn let_go(&mut self, id: u32) {
        let falls_by = self.coat(id).map(Coat::falls_by);
        for coat in self.coats.iter_mut().filter(|coat| Some(coat.falls_by()) == falls_by) {
            coat.layout.falls_with = None;
        }
    }

    /// After a change of a coat, those that lie together with it lie as it does now. `before` is how all was.
    pub fn keep_together(&mut self, before: &Self) {
        let moved = |coat: &&Coat| before.coat(coat.id).is_some_and(|was| !coat.lies_like(was));
        let changed: Vec<Coat> = self.coats.iter().filter(moved).cloned().collect();
        for coat in &changed {
            let together = |other: &&mut Coat| other.id != coat.id && other.falls_by() == coat.falls_by();
            for other in self.coats.iter_mut().filter(together) {
                *other = coat.as_it_lies(other);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::demo;
    use super::super::model::{Patches, ThickAndThin};
    use super::*;
    use crate::base::seed::Seed;

    /// Ember Walk with a coat of moss on its second one.
    fn overlaid() -> (Recipe, u32, u32) {
        let mut recipe = demo::ember_walk();
        let id = recipe.free_coat_id();
        let mut upper = recipe.coats[1].another_on_it(id);
        upper.powder[0].glass = "moss".into();
        upper.fall.set_middling(0.1);
        recipe.coats.insert(2, upper);
        let lower = recipe.coats[1].id;
        (recipe, lower, id)
    }

    fn changed(recipe: &Recipe, id: u32, change: impl FnOnce(&mut Coat)) -> Recipe {
        let mut after = recipe.clone();
        change(after.coat_mut(id).unwrap());
        after.keep_together(recipe);
        after
    }

    #[test]
    fn what_is_changed_of_one_is_changed_of_both_but_powder_and_depth() {
        let (recipe, lower, upper) = overlaid();
        for (id, other) in [(lower, upper), (upper, lower)] {
            let after = changed(&recipe, id, |coat| {
                let Fall::Patches(patches) = &mut coat.fall else { panic!("it has patches") };
                patches.coverage = 0.5;
                patches.depth = Mm(1.0);
                coat.bare_rim = Mm(9.0);
                coat.lock(Seed(7));
                coat.sift_again();
                coat.powder[0].glass = "coral".into();
            });
            let (now, was) = (after.coat(other).unwrap(), recipe.coat(other).unwrap());
            assert!(after.coat(id).unwrap().lies_like(now) && !was.lies_like(now));
            assert_eq!((&now.powder, now.fall.middling()), (&was.powder, was.fall.middling()));
            assert_eq!((now.layout.locked_to, now.layout.rerolls), (Some(Seed(7)), 1));
            assert_eq!(now.falls_by(), lower);
        }
        let (first, third) = (&recipe.coats[0], &recipe.coats[3]);
        let after = changed(&recipe, lower, |coat| coat.bare_rim = Mm(9.0));
        assert_eq!((first, third), (&after.coats[0], &after.coats[3]), "the others lie as they did");
    }

    #[test]
    fn deeper_alone_is_no_change_of_how_it_lies() {
        let (recipe, lower, upper) = overlaid();
        let after = changed(&recipe, lower, |coat| coat.fall.set_middling(1.5));
        assert_eq!(after.coat(upper), recipe.coat(upper));
        assert_eq!(after.coat(lower).unwrap().fall.middling(), 1.5);
    }

    #[test]
    fn one_that_is_let_go_or_alone_stays_where_it_lies() {
        let (recipe, lower, upper) = overlaid();
        assert_eq!(recipe.beside(upper).map(|coat| coat.id), Some(lower));
        assert_eq!(recipe.beside(lower).map(|coat| coat.id), Some(upper));
        assert_eq!(recipe.beside(recipe.coats[0].id), None);
        for id in [lower, upper] {
            let mut apart = recipe.clone();
            apart.let_go(id);
            assert_eq!((apart.beside(upper), apart.coat(upper).unwrap().falls_by()), (None, upper));
        }
        let mut alone = recipe.clone();
        alone.coats.retain(|coat| coat.id != lower);
        assert_eq!(alone.coat(upper).unwrap().falls_by(), lower, "its chance is what it was");
        assert_eq!(alone.beside(upper), None);
        alone.coats.retain(|coat| coat.id == upper);
        alone.coats[0].layout.falls_with = Some(900);
        assert_eq!(alone.free_coat_id(), 901, "a new coat never comes to lie together by chance");
    }

    #[test]
    fn a_fall_is_set_as_deep_as_it_can_lie() {
        let range = ThickAndThin { thinnest: Mm(0.1), thickest: Mm(1.1), ..ThickAndThin::usual() };
        for (mut fall, depth) in [
            (Fall::Even { depth: Mm(0.3) }, 0.3),
            (Fall::Patches(Patches::usual()), 0.45),
            (Fall::ThickAndThin(range), 0.4),
        ] {
            assert!((fall.middling() - depth).abs() < 1e-12, "{fall:?}");
            fall.set_middling(0.8);
            assert!((fall.middling() - 0.8).abs() < 1e-3, "{fall:?}");
            fall.set_middling(99.0);
            let deepest =
                if let Fall::ThickAndThin(range) = &fall { range.thickest } else { Mm(fall.middling()) };
            assert_eq!(deepest, Mm(3.0));
        }
    }
}
