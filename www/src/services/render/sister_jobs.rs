//! Which sisters are drawn or asked for, and what has to be asked when others are looked at. Plain data.

use crate::model::slots::PictureSlot;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;

/// What the pictures of sisters are drawn by.
pub type MadeBy = (Recipe, Light);

/// What is drawn or asked for.
#[derive(Debug, Default)]
pub struct SisterJobs {
    made_by: Option<MadeBy>,
    asked: Vec<PictureSlot>,
}

/// What to do now.
#[derive(Debug, Default, PartialEq)]
pub struct NextJobs {
    /// Whether all that is known of sisters is of another recipe or light.
    pub stale: bool,
    /// What need not be drawn any more.
    pub dropped: Vec<PictureSlot>,
    /// What is to be drawn, in this order.
    pub ask: Vec<PictureSlot>,
}

impl SisterJobs {
    /// What to do so that everything `looked_at` gets drawn by this recipe and light. `keep` says which pictures stay
    /// although nobody looks at them.
    pub fn next(
        &mut self,
        made_by: &MadeBy,
        looked_at: &[PictureSlot],
        keep: impl Fn(PictureSlot) -> bool,
    ) -> NextJobs {
        let stale = self.made_by.as_ref() != Some(made_by);
        let wanted = |slot: &PictureSlot| looked_at.contains(slot) || keep(*slot);
        let dropped: Vec<_> = self.asked.iter().filter(|slot| stale || !wanted(slot)).copied().collect();
        self.asked.retain(|slot| !dropped.contains(slot));
        let ask: Vec<_> = looked_at.iter().filter(|slot| !self.asked.contains(slot)).copied().collect();
        self.asked.extend_from_slice(&ask);
        if stale {
            self.made_by = Some(made_by.clone());
        }
        NextJobs { stale, dropped, ask }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::seed::Seed;

    fn sister(seed: u32) -> PictureSlot {
        PictureSlot::Sister(Seed(seed))
    }

    fn day() -> MadeBy {
        (Recipe::bare(), Light::Day)
    }

    #[test]
    fn each_is_asked_once_in_the_order_of_looking() {
        let mut jobs = SisterJobs::default();
        let next = jobs.next(&day(), &[sister(2), sister(1)], |_| false);
        assert_eq!(next.ask, [sister(2), sister(1)]);
        assert!(next.dropped.is_empty());
        let next = jobs.next(&day(), &[sister(1), sister(2), sister(3)], |_| false);
        assert_eq!(next, NextJobs { stale: false, dropped: vec![], ask: vec![sister(3)] });
    }

    #[test]
    fn what_nobody_looks_at_is_dropped_unless_it_is_kept() {
        let mut jobs = SisterJobs::default();
        jobs.next(&day(), &[sister(1), sister(2)], |_| false);
        let next = jobs.next(&day(), &[], |slot| slot == sister(1));
        assert_eq!(next.dropped, [sister(2)]);
        let next = jobs.next(&day(), &[sister(1), sister(2)], |_| false);
        assert_eq!(next.ask, [sister(2)], "the kept one is still there");
    }

    #[test]
    fn another_recipe_or_light_asks_for_everything_anew() {
        let mut jobs = SisterJobs::default();
        assert!(jobs.next(&day(), &[sister(1)], |_| false).stale);
        let lit = (Recipe::bare(), Light::Within);
        let next = jobs.next(&lit, &[sister(1)], |_| true);
        assert_eq!(next, NextJobs { stale: true, dropped: vec![sister(1)], ask: vec![sister(1)] });
    }

    #[test]
    fn stepping_through_seeds_remembers_only_those_looked_at() {
        let mut jobs = SisterJobs::default();
        for seed in 0..500 {
            jobs.next(&day(), &[sister(seed), sister(seed + 1), sister(seed + 2)], |_| false);
        }
        assert_eq!(jobs.asked.len(), 3);
    }
}
