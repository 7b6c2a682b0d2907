//! Which sisters are drawn or asked for, and what has to be asked when others are looked at or what they show has
//! changed. Plain data.

use crate::model::slots::PictureSlot;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;
use std::collections::HashMap;
use std::sync::Arc;

/// What a picture is drawn by.
#[derive(Clone, Debug)]
pub struct MadeBy {
    /// The recipe, as it lies on the sister's seed.
    pub recipe: Arc<Recipe>,
    /// The light.
    pub light: Light,
}

impl PartialEq for MadeBy {
    fn eq(&self, other: &Self) -> bool {
        self.light == other.light && (Arc::ptr_eq(&self.recipe, &other.recipe) || self.recipe == other.recipe)
    }
}

/// What is drawn or asked for.
#[derive(Debug, Default)]
pub struct SisterJobs {
    asked: HashMap<PictureSlot, MadeBy>,
}

/// What to do now.
#[derive(Debug, Default, PartialEq)]
pub struct NextJobs {
    /// Whether something that is looked at or kept shows another recipe or light than was asked for.
    pub stale: bool,
    /// What need not be drawn any more.
    pub dropped: Vec<PictureSlot>,
    /// What is to be drawn, in this order.
    pub ask: Vec<(PictureSlot, MadeBy)>,
}

impl SisterJobs {
    /// Whether a slot's picture is drawn or asked for.
    pub fn has_asked(&self, slot: &PictureSlot) -> bool {
        self.asked.contains_key(slot)
    }

    /// What to do so that everything `looked_at` gets drawn. `keep` says which pictures stay although nobody looks at them,
    /// `made_by` what each is drawn by; nothing if there is no such sister.
    pub fn next(
        &mut self,
        looked_at: &[PictureSlot],
        keep: impl Fn(PictureSlot) -> bool,
        made_by: impl Fn(PictureSlot) -> Option<MadeBy>,
    ) -> NextJobs {
        let mut next = NextJobs::default();
        self.asked.retain(|slot, asked| {
            let wanted = looked_at.contains(slot) || keep(*slot);
            let changed = wanted && made_by(*slot).as_ref() != Some(asked);
            next.stale |= changed;
            let stays = wanted && !changed;
            if !stays {
                next.dropped.push(*slot);
            }
            stays
        });
        for slot in looked_at.iter().filter(|slot| !self.asked.contains_key(slot)) {
            next.ask.extend(made_by(*slot).map(|made_by| (*slot, made_by)));
        }
        self.asked.extend(next.ask.iter().cloned());
        next
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::seed::Seed;

    fn sister(seed: u32) -> PictureSlot {
        PictureSlot::Sister(Seed(seed))
    }

    fn bare() -> Recipe {
        Recipe::bare()
    }

    fn by(recipe: Recipe, light: Light) -> impl Fn(PictureSlot) -> Option<MadeBy> {
        let recipe = Arc::new(recipe);
        move |_| Some(MadeBy { recipe: recipe.clone(), light })
    }

    fn day() -> impl Fn(PictureSlot) -> Option<MadeBy> {
        by(bare(), Light::Day)
    }

    fn asked(next: &NextJobs) -> Vec<PictureSlot> {
        next.ask.iter().map(|(slot, _)| *slot).collect()
    }

    #[test]
    fn each_is_asked_once_in_the_order_of_looking() {
        let mut jobs = SisterJobs::default();
        let next = jobs.next(&[sister(2), sister(1)], |_| false, day());
        assert_eq!(asked(&next), [sister(2), sister(1)]);
        assert!(next.dropped.is_empty());
        let next = jobs.next(&[sister(1), sister(2), sister(3)], |_| false, day());
        assert_eq!((next.stale, &next.dropped, asked(&next)), (false, &vec![], vec![sister(3)]));
    }

    #[test]
    fn what_nobody_looks_at_is_dropped_unless_it_is_kept() {
        let mut jobs = SisterJobs::default();
        jobs.next(&[sister(1), sister(2)], |_| false, day());
        let next = jobs.next(&[], |slot| slot == sister(1), day());
        assert_eq!((next.stale, next.dropped), (false, vec![sister(2)]));
        let next = jobs.next(&[sister(1), sister(2)], |_| false, day());
        assert_eq!(asked(&next), [sister(2)], "the kept one is still there");
    }

    #[test]
    fn another_recipe_or_light_asks_for_everything_anew() {
        let mut jobs = SisterJobs::default();
        jobs.next(&[sister(1)], |_| false, day());
        for made_by in [by(bare(), Light::Within), by(Recipe { packing: 0.5, ..bare() }, Light::Within)] {
            let next = jobs.next(&[sister(1)], |_| true, made_by);
            assert!(next.stale && next.dropped == [sister(1)] && asked(&next) == [sister(1)]);
        }
    }

    #[test]
    fn what_changed_on_one_seed_asks_for_that_one_alone() {
        let mut jobs = SisterJobs::default();
        let all = [sister(1), sister(2), sister(3)];
        jobs.next(&all, |_| false, day());
        let changed = Arc::new(Recipe { packing: 0.5, ..bare() });
        let next = jobs.next(
            &all,
            |_| false,
            |slot| {
                if slot == sister(2) {
                    Some(MadeBy { recipe: changed.clone(), light: Light::Day })
                } else {
                    day()(slot)
                }
            },
        );
        assert_eq!((next.dropped.as_slice(), asked(&next)), (&[sister(2)][..], vec![sister(2)]));
    }

    #[test]
    fn what_there_is_no_longer_is_dropped_and_not_asked() {
        let mut jobs = SisterJobs::default();
        jobs.next(&[sister(1)], |_| false, day());
        let next = jobs.next(&[sister(1)], |_| false, |_| None);
        assert_eq!((next.dropped.as_slice(), next.ask.len()), (&[sister(1)][..], 0));
    }

    #[test]
    fn stepping_through_seeds_remembers_only_those_looked_at() {
        let mut jobs = SisterJobs::default();
        for seed in 0..500 {
            jobs.next(&[sister(seed), sister(seed + 1), sister(seed + 2)], |_| false, day());
        }
        assert_eq!(jobs.asked.len(), 3);
    }
}
