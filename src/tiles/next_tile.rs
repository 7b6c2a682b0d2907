//! The tile that would make a glass surest where it is used.

use super::ladder::depths;
use super::sureness::{By, Evidence, Sureness};
use crate::base::scalar::Bounds;

/// A tile to be fired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextTile {
    /// So deep over white, mm of loose powder.
    pub depth: f32,
    /// How far colors may be off then where the glass is used, CIEDE2000.
    pub then: f32,
}

/// The depths that are proposed, mm: a spoon cannot tell more of them apart.
const PROPOSED: [f32; 10] = [0.1, 0.15, 0.2, 0.3, 0.45, 0.6, 0.9, 1.3, 2.0, 3.0];
/// A tile that makes less better than this is not worth firing (a judgment).
const WORTH: f32 = 0.5;
/// Depths at which a range of use is looked at.
const LOOKED_AT: usize = 5;

/// The tile over white that would make a glass surest where it is used, from so thin to so deep (mm of loose powder); none where no tile is
/// worth its powder.
pub fn next_tile(sureness: &Sureness, used: [f32; 2], by: By) -> Option<NextTile> {
    let now = at_worst(sureness, used, by);
    let with = |depth: f32| match sureness {
        Sureness::Tiles(evidence) => Some(evidence.with(depth)),
        Sureness::Invented => Some(Evidence::first(depth)),
        Sureness::Measured(_) => None,
    };
    let then = |depth: f32| {
        let then = at_worst(&Sureness::Tiles(with(depth)?), used, by)?;
        Some(NextTile { depth, then })
    };
    PROPOSED
        .into_iter()
        .filter_map(then)
        .min_by(|one, other| one.then.total_cmp(&other.then))
        .filter(|best| now.is_none_or(|now| now - best.then >= WORTH))
}

/// How far the color may be off where it is least sure; none for a glass that is made up.
pub fn at_worst(sureness: &Sureness, [thin, deep]: [f32; 2], by: By) -> Option<f32> {
    let each = depths(thin.at_least(1e-3), deep.at_least(2e-3), LOOKED_AT);
    each.into_iter().map(|depth| sureness.at(depth, by)).reduce(|most, off| Some(most?.at_least(off?)))?
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;
    use crate::glass::tile::{Over, Powder, Sifted, Tile};

    fn fitted(depths: &[f64]) -> Sureness {
        let tile = |mm: &f64| Tile {
            sifted: Sifted::Loose(Mm(*mm)),
            over: Over::White,
            color: [50.0, 10.0, 20.0],
            spread: None,
        };
        let powder = Powder { packing: 0.45, density: 2.5, milkiness: 0.0 };
        Sureness::Tiles(Evidence::of(&depths.iter().map(tile).collect::<Vec<_>>(), &powder))
    }

    /// One tile of 0.45 mm, used from a dusting to a heap: a second one far from it, and what is said then is what such a pair has.
    #[test]
    fn a_second_tile_is_proposed_far_from_the_first() {
        let used = [0.1, 0.5];
        let next = next_tile(&fitted(&[0.45]), used, By::Day).expect("one tile is not enough");
        assert!(next.depth <= 0.2, "{next:?}");
        let pair = fitted(&[0.45, f64::from(next.depth)]);
        assert_eq!(Some(next.then), at_worst(&pair, used, By::Day));
        assert!(at_worst(&fitted(&[0.45]), used, By::Day).is_some_and(|now| now - next.then >= WORTH));
        let deep = next_tile(&fitted(&[0.1]), [0.1, 2.0], By::Day).expect("it is used far deeper");
        assert!(deep.depth >= 1.3, "{deep:?}");
    }

    #[test]
    fn the_first_tile_of_a_made_up_glass_lies_where_it_is_used() {
        let next = next_tile(&Sureness::Invented, [0.25, 0.35], By::Day).expect("nothing is known");
        assert!((0.2..=0.45).contains(&next.depth), "{next:?}");
    }

    #[test]
    fn where_enough_is_known_no_tile_is_proposed() {
        assert_eq!(next_tile(&fitted(&[0.15, 0.5]), [0.2, 0.4], By::Day), None);
        assert_eq!(next_tile(&Sureness::Measured(0.2), [0.2, 0.4], By::Day), None);
    }

    #[test]
    fn a_range_is_as_sure_as_its_least_sure_depth() {
        let one = fitted(&[0.4]);
        let worst = at_worst(&one, [0.1, 1.6], By::Day).expect("it is known");
        assert_eq!(Some(worst), one.at(1.6, By::Day), "four times as deep is the worst of these");
        assert_eq!(at_worst(&Sureness::Invented, [0.1, 1.6], By::Day), None);
    }
}
