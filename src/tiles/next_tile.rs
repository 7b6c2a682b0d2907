//! The tile that would make a glass surest where it is used.

use super::ladder::depths;
use super::sureness::{By, Evidence, Sureness};
use crate::base::scalar::Bounds;

/// What a tile is to be fired on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// White.
    White,
    /// Black: it tells a cloudy glass from a clear one.
    Black,
    /// One tile on each.
    Both,
}

/// A tile to be fired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextTile {
    /// So deep, mm of loose powder.
    pub depth: f32,
    /// On what.
    pub on: On,
    /// How far colors may be off then where the glass is used, CIEDE2000.
    pub then: f32,
}

/// The depths that are proposed, mm: a spoon cannot tell more of them apart.
const PROPOSED: [f32; 10] = [0.1, 0.15, 0.2, 0.3, 0.45, 0.6, 0.9, 1.3, 2.0, 3.0];
/// A tile that makes less better than this is not worth firing (a judgment).
const WORTH: f32 = 0.5;
/// Depths at which a range of use is looked at.
const LOOKED_AT: usize = 5;

/// The tile that would make a glass surest where it is used, from so thin to so deep (mm of loose powder); none where no tile is worth its
/// powder. `scatter` is what a glass that is made up is said to scatter, per mm.
pub fn next_tile(sureness: &Sureness, scatter: f32, used: [f32; 2], by: By) -> Option<NextTile> {
    let (evidence, tiled) = match sureness {
        Sureness::Tiles(evidence) => (evidence.clone(), true),
        Sureness::Invented => (Evidence::none(scatter), false),
        Sureness::Measured(_) => return None,
    };
    let cloudy = evidence.scatter_is_said();
    let fired = |depth: f32, on: On| {
        let with = match on {
            On::White => evidence.with_white(depth),
            On::Black => evidence.with_black(),
            On::Both => evidence.with_white(depth).with_black(),
        };
        Some(NextTile { depth, on, then: at_worst(&Sureness::Tiles(with), used, by)? })
    };
    // A first tile of a cloudy glass is a pair; of one that has tiles over white, the one over black lies as deep as they do.
    let on = if tiled || !cloudy { On::White } else { On::Both };
    let proposed = PROPOSED.into_iter().filter_map(|depth| fired(depth, on));
    let black = evidence.depths().last().filter(|_| cloudy).and_then(|depth| fired(*depth, On::Black));
    let now = at_worst(sureness, used, by);
    let best = proposed.chain(black).min_by(|one, other| one.then.total_cmp(&other.then))?;
    now.is_none_or(|now| now - best.then >= WORTH).then_some(best)
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
        let next = next_tile(&fitted(&[0.45]), 0.0, used, By::Day).expect("one tile is not enough");
        assert!(next.depth <= 0.2, "{next:?}");
        let pair = fitted(&[0.45, f64::from(next.depth)]);
        assert_eq!(Some(next.then), at_worst(&pair, used, By::Day));
        assert!(at_worst(&fitted(&[0.45]), used, By::Day).is_some_and(|now| now - next.then >= WORTH));
        let deep = next_tile(&fitted(&[0.1]), 0.0, [0.1, 2.0], By::Day).expect("it is used far deeper");
        assert!(deep.depth >= 1.3, "{deep:?}");
    }

    #[test]
    fn the_first_tile_of_a_made_up_glass_lies_where_it_is_used() {
        let next = next_tile(&Sureness::Invented, 0.0, [0.25, 0.35], By::Day).expect("nothing is known");
        assert!((0.2..=0.45).contains(&next.depth), "{next:?}");
    }

    /// What a cloudy glass scatters, a tile over black tells; by white alone its colors may be off by ten.
    #[test]
    fn a_cloudy_glass_is_asked_for_black() {
        let first = next_tile(&Sureness::Invented, 2.7, [0.25, 0.35], By::Day).expect("nothing is known");
        assert_eq!(first.on, On::Both);
        let powder = Powder { packing: 0.45, density: 2.5, milkiness: 2.7 };
        let tile =
            |over| Tile { sifted: Sifted::Loose(Mm(0.3)), over, color: [80.0, 0.0, 0.0], spread: None };
        let white = Sureness::Tiles(Evidence::of(&[tile(Over::White)], &powder));
        let both = Sureness::Tiles(Evidence::of(&[tile(Over::White), tile(Over::Black)], &powder));
        let next = next_tile(&white, 2.7, [0.25, 0.35], By::Day).expect("white alone is not enough");
        assert_eq!((next.on, next.depth), (On::Black, 0.3));
        assert_eq!(Some(next.then), at_worst(&both, [0.25, 0.35], By::Day));
        assert!(at_worst(&white, [0.25, 0.35], By::Day).is_some_and(|now| now > 3.0 * next.then), "{next:?}");
    }

    #[test]
    fn where_enough_is_known_no_tile_is_proposed() {
        assert_eq!(next_tile(&fitted(&[0.15, 0.5]), 0.0, [0.2, 0.4], By::Day), None);
        assert_eq!(next_tile(&Sureness::Measured(0.2), 0.0, [0.2, 0.4], By::Day), None);
    }

    #[test]
    fn a_range_is_as_sure_as_its_least_sure_depth() {
        let one = fitted(&[0.4]);
        let worst = at_worst(&one, [0.1, 1.6], By::Day).expect("it is known");
        assert_eq!(Some(worst), one.at(1.6, By::Day), "four times as deep is the worst of these");
        assert_eq!(at_worst(&Sureness::Invented, [0.1, 1.6], By::Day), None);
    }
}
