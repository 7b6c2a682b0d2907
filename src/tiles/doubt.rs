//! What speaks against tiles: brighter than their base, or not of one glass.

use super::fired::Fired;
use super::solve::alone;
use super::sureness::Evidence;
use super::tile::{Bases, Over};
use crate::base::notice::{Notice, Severity, Step};
use crate::color::difference::{de2000, from_lab};

/// Something that speaks against tiles; they are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doubt {
    /// No transparent glass on this base is so bright.
    BrighterThanBase {
        /// The tile.
        tile: usize,
    },
    /// A color that sRGB cannot hold was read as sRGB: what is beyond it is cut off.
    CutOff {
        /// The tile.
        tile: usize,
    },
    /// Two tiles are further apart than one glass would be.
    Disagree {
        /// One of them.
        one: usize,
        /// The other one.
        other: usize,
        /// The second, reckoned from the first, is off by this, CIEDE2000 (or the first from the second, if that is less).
        apart: f64,
    },
    /// No glass of this kind has this tile's color.
    OutOfReach {
        /// The tile.
        tile: usize,
        /// The nearest is off by this, CIEDE2000.
        apart: f64,
    },
}

/// A difference below this, CIEDE2000, is no doubt: hard to see side by side.
const SEEN: f64 = 2.0;
/// Tiles apart by less than this, CIEDE2000, do not disagree: two hands never sift alike (common practice, no source).
const HANDS: f64 = 4.0;
/// Of so many tiles each is held against every other one; more are only held against their fit.
const COMPARED: usize = 12;

/// All of them, the tiles in order.
pub fn of(tiles: &[Fired], bases: &Bases, evidence: &Evidence, apart: &[f64], scatters: bool) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    for (tile, fired) in tiles.iter().enumerate() {
        if fired.over == Over::White && !scatters && apart[tile] > 0.5 && brighter(fired, bases) {
            doubts.push(Doubt::BrighterThanBase { tile });
        }
    }
    doubts.extend((0..tiles.len()).filter(|tile| cut_off(&tiles[*tile])).map(|tile| Doubt::CutOff { tile }));
    doubts.extend(disagreeing(tiles, evidence));
    for (tile, apart) in apart.iter().enumerate().filter(|(_, apart)| **apart > SEEN) {
        let known = doubts.iter().any(|doubt| match *doubt {
            Doubt::BrighterThanBase { tile: one } | Doubt::OutOfReach { tile: one, .. } => one == tile,
            Doubt::Disagree { one, other, .. } => one == tile || other == tile,
            Doubt::CutOff { .. } => false,
        });
        if !known {
            doubts.push(Doubt::OutOfReach { tile, apart: *apart });
        }
    }
    doubts
}

/// Whether a tile is brighter than its bare base in any channel.
fn brighter(tile: &Fired, bases: &Bases) -> bool {
    from_lab(tile.color).iter().any(|channel| f64::from(*channel) > bases.white)
}

/// Whether a channel is nothing (less than half an 8-bit code) where the color is not all dark.
fn cut_off(tile: &Fired) -> bool {
    let channels = from_lab(tile.color);
    channels.iter().any(|channel| channel.abs() < 1.5e-4) && channels.iter().any(|channel| *channel > 0.02)
}

/// The two tiles over white that are furthest from being of one glass, if any are: each by itself makes a glass, which must
/// give the other as near as a glass from one tile can be asked to.
fn disagreeing(tiles: &[Fired], evidence: &Evidence) -> Option<Doubt> {
    let white: Vec<usize> =
        (0..tiles.len()).filter(|tile| tiles[*tile].over == Over::White).take(COMPARED).collect();
    if white.len() < 2 {
        return None;
    }
    let alone: Vec<_> = white.iter().map(|tile| alone(&tiles[*tile], evidence.milkiness())).collect();
    let mut worst: Option<(f64, Doubt)> = None;
    for (i, &one) in white.iter().enumerate() {
        for (j, &other) in white.iter().enumerate().skip(i + 1) {
            let to = de2000(tiles[other].predicted(&alone[i]), tiles[other].color);
            let from = de2000(tiles[one].predicted(&alone[j]), tiles[one].color);
            let apart = to.min(from);
            let ratio = tiles[other].thickness / tiles[one].thickness;
            let most = evidence.one_tile(ratio).max(evidence.one_tile(1.0 / ratio)).max(HANDS);
            if apart > most && worst.is_none_or(|(beyond, _)| apart - most > beyond) {
                worst = Some((apart - most, Doubt::Disagree { one, other, apart }));
            }
        }
    }
    worst.map(|(_, doubt)| doubt)
}

impl Doubt {
    /// The same in words; tiles are counted from 1 there.
    pub fn notice(&self) -> Notice {
        let (what, why, remedy) = match *self {
            Self::BrighterThanBase { tile } => (
                "Brighter than its base.".to_owned(),
                format!("Tile {} is brighter than the bare white that it lies on.", tile + 1),
                "Check the white: its value, and that it was lit as the tile was.",
            ),
            Self::CutOff { tile } => (
                "Stronger than a screen can show.".to_owned(),
                format!("Tile {}'s color is cut off: one of red, green and blue is 0.", tile + 1),
                "Type it in Lab, or sift the tile thinner.",
            ),
            Self::Disagree { one, other, apart } => (
                format!("These two disagree by {apart:.0}."),
                format!("Tiles {} and {} do not come from one glass.", one + 1, other + 1),
                "Another jar, or another depth? Check the grams, or leave one out.",
            ),
            Self::OutOfReach { tile, apart } => (
                "No glass comes so near.".to_owned(),
                format!("Tile {} stays {apart:.0} away from the nearest glass.", tile + 1),
                "Check its color and what it lies on; for an opal, fire it over black too.",
            ),
        };
        Notice::new(Severity::Risk, Step::Recipe, what, why, remedy)
    }
}
