//! A set of sisters picked from those that are drawn.

use dappledome::base::seed::Seed;
use dappledome::shop::sisters::{Features, Spread, as_different_as_can_be, spread, that_belong_together};

/// What a set is picked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetKind {
    /// Its members belong together.
    Together,
    /// They are as different as can be.
    Different,
}

/// A picked set.
#[derive(Clone, Debug, PartialEq)]
pub struct PickedSet {
    /// Its members, in the order in which they were laid.
    pub seeds: Vec<Seed>,
    /// How far it spreads.
    pub spread: Spread,
}

/// A set of this size; nothing if there is no choice, because no more sisters than that are drawn.
pub fn pick(drawn: &[(Seed, Features)], size: usize, kind: SetKind) -> Option<PickedSet> {
    if drawn.len() <= size {
        return None;
    }
    let features: Vec<Features> = drawn.iter().map(|(_, features)| features.clone()).collect();
    let set = match kind {
        SetKind::Together => that_belong_together(&features, size),
        SetKind::Different => as_different_as_can_be(&features, size),
    };
    let members: Vec<&Features> = set.iter().map(|at| &features[*at]).collect();
    Some(PickedSet { seeds: set.iter().map(|at| drawn[*at].0).collect(), spread: spread(&members)? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Grams;

    /// Sisters of one coat, with what it covers of the disc.
    fn drawn(shares: &[f64]) -> Vec<(Seed, Features)> {
        let features = |share: f64| Features {
            shows: vec![(1, share)],
            bare: 1.0 - share,
            mean: [50.0, 0.0, 0.0],
            grams: Grams(5.0),
        };
        (70..).map(Seed).zip(shares.iter().map(|share| features(*share))).collect()
    }

    #[test]
    fn those_that_belong_together_are_alike_and_the_others_are_not() {
        let drawn = drawn(&[0.1, 0.5, 0.9, 0.52, 0.3]);
        let set = pick(&drawn, 2, SetKind::Together).unwrap();
        assert_eq!((set.seeds, set.spread.coat), (vec![Seed(71), Seed(73)], Some((1, 0.5, 0.52))));
        let set = pick(&drawn, 2, SetKind::Different).unwrap();
        assert_eq!((set.seeds, set.spread.coat), (vec![Seed(70), Seed(72)], Some((1, 0.1, 0.9))));
    }

    #[test]
    fn there_must_be_something_to_choose_from() {
        let drawn = drawn(&[0.1, 0.5, 0.9]);
        for kind in [SetKind::Together, SetKind::Different] {
            assert_eq!(pick(&drawn, 3, kind), None);
            assert_eq!(pick(&drawn, 2, kind).map(|set| set.seeds.len()), Some(2));
            assert_eq!(pick(&[], 0, kind), None);
        }
    }
}
