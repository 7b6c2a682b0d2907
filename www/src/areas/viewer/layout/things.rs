//! What lies on the glass to be moved by hand.

use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use dappledome::layup::accents::Accent;
use dappledome::layup::outlines::LyingPatch;
use dappledome::recipe::{WhichAccent, WhichPatch};

/// What can be laid by hand now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laying {
    /// The patches of the coat with this id.
    Patches(u32),
    /// The accents.
    Accents,
}

/// What to call a thing by that lies there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Which {
    /// A patch of the open coat.
    Patch(WhichPatch),
    /// An accent.
    Accent(WhichAccent),
}

impl Which {
    /// Whether it was added by hand.
    pub fn is_added(&self) -> bool {
        matches!(self, Self::Patch(WhichPatch::Added(_)) | Self::Accent(WhichAccent::Added(_)))
    }

    /// The same as numbers that can be hashed.
    pub fn key(&self) -> [u64; 3] {
        match *self {
            Self::Patch(WhichPatch::Fallen([x, y])) => [0, x.to_bits(), y.to_bits()],
            Self::Patch(WhichPatch::Added(at)) => [1, at as u64, 0],
            Self::Accent(WhichAccent::Set(number)) => [2, number.into(), 0],
            Self::Accent(WhichAccent::Added(at)) => [3, at as u64, 0],
        }
    }
}

/// A thing that can be moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// What to call it by.
    pub which: Which,
    /// Its middle on the disc, mm.
    pub middle: [f32; 2],
    /// What it is, in words.
    pub name: String,
    /// Its outline on the disc as a path of lines, mm.
    pub path: String,
}

impl Thing {
    /// A patch of this powder.
    pub fn patch(powder: &str, patch: &LyingPatch, units: Units) -> Self {
        let outline = |outline: &Vec<[f32; 2]>| {
            let points: Vec<String> =
                outline.iter().map(|[x, y]| format!("{} {}", fixed(*x, 2), fixed(*y, 2))).collect();
            format!("M{}Z", points.join("L"))
        };
        Self {
            which: Which::Patch(patch.which),
            middle: patch.middle,
            name: words::patch(powder, patch.share, patch.middle, units),
            path: patch.outlines.iter().map(outline).collect(),
        }
    }

    /// An accent.
    pub fn accent(accent: &Accent, units: Units) -> Self {
        // A little wider than the glass, so that the glass is seen within.
        let r = 0.5 * accent.size + 0.8;
        let middle = [accent.x, accent.y];
        let arc = |across: f32| format!("a{0} {0} 0 1 0 {1} 0", fixed(r, 2), fixed(across, 2));
        let from = format!("M{} {}", fixed(accent.x - r, 2), fixed(accent.y, 2));
        Self {
            which: Which::Accent(accent.which),
            middle,
            name: words::accent(middle, units),
            path: format!("{from}{}{}", arc(2.0 * r), arc(-2.0 * r)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_things_have_one_key() {
        let all = [
            Which::Patch(WhichPatch::Fallen([1.0, 2.0])),
            Which::Patch(WhichPatch::Fallen([2.0, 1.0])),
            Which::Patch(WhichPatch::Added(1)),
            Which::Accent(WhichAccent::Set(1)),
            Which::Accent(WhichAccent::Added(1)),
        ];
        for (at, one) in all.iter().enumerate() {
            assert!(all[..at].iter().all(|other| other.key() != one.key()), "{one:?}");
        }
    }

    #[test]
    fn outlines_are_closed_paths_and_holes_are_paths_too() {
        let square = vec![[0.0, 0.0], [1.0, 0.0], [1.0, 1.5]];
        let patch = LyingPatch {
            which: WhichPatch::Added(0),
            middle: [0.5, 0.5],
            share: 0.1,
            by_hand: true,
            outlines: vec![square.clone(), square],
        };
        let path = Thing::patch("Rust", &patch, Units::default()).path;
        assert_eq!(path, "M0.00 0.00L1.00 0.00L1.00 1.50Z".repeat(2));
    }

    #[test]
    fn an_accent_is_ringed() {
        let accent =
            Accent { x: 10.0, y: 0.0, size: 2.4, glass: 0, which: WhichAccent::Set(3), by_hand: false };
        let thing = Thing::accent(&accent, Units::default());
        assert_eq!(thing.path, "M8.00 0.00a2.00 2.00 0 1 0 4.00 0a2.00 2.00 0 1 0 -4.00 0");
        assert_eq!((thing.which, thing.middle), (Which::Accent(WhichAccent::Set(3)), [10.0, 0.0]));
    }
}
