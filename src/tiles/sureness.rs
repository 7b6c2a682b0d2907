//! How far the fired colors of a glass may be off from its forecast: from what the glass was fitted from, and how deep it lies.
//!
//! A figure is the 95th percentile of CIEDE2000 over a study of invented true glasses (`examples/how_sure`): of twenty places,
//! nineteen come nearer. A mean would be half of it, and one place in three would disappoint. What is not in it: two hands
//! never sift alike, and a kiln is not the kiln of the tiles.

use super::sureness_table::{FROM_TILES, FURTHEST, NODES, PAIR};
use super::tile::{Over, Powder, Tile};
use crate::base::scalar::{Bounds, lerp, log2};
use crate::glass::kind::{Glass, Source};
use crate::recipe::limits::PACKING;

/// How far a measured window glass is off, CIEDE2000: what `tests/published/window_glass.rs` finds, rounded up.
const MEASURED: f32 = 0.1;

/// What the colors of a glass rest on.
#[derive(Clone, Debug, PartialEq)]
pub enum Sureness {
    /// On nothing: it is made up.
    Invented,
    /// On a measured spectrum, whose colors are off by so much, CIEDE2000.
    Measured(f32),
    /// On fired tiles.
    Tiles(Evidence),
}

/// How a piece is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// By day, on any base.
    Day,
    /// Lit from behind.
    Lit,
}

/// The tiles that a glass was fitted from.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// Depths of loose powder of the tiles over white, mm, thinnest first.
    depths: Vec<f32>,
    /// How scatter is known.
    scatter: Known,
    /// How well colors were read, CIEDE2000: 0 for those typed in 8 bits.
    noise: f32,
}

/// How the scatter of a glass is known.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Known {
    /// It is transparent, says the maker.
    Transparent,
    /// It scatters so much per mm, says the maker.
    Said(f32),
    /// From a tile over black.
    Seen,
}

/// The tables of `FROM_TILES`, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A transparent glass from one depth over white.
    One,
    /// A transparent glass from several depths over white.
    Several,
    /// Any glass from white and black.
    WhiteAndBlack,
    /// A scattering glass from white alone, with a scatter that the maker took for it.
    ScatterSaid,
}

impl Evidence {
    /// What these tiles are for a glass. At least one of them lies over white.
    pub fn of(tiles: &[Tile], powder: &Powder) -> Self {
        let white = tiles.iter().filter(|tile| tile.over == Over::White);
        let mut depths: Vec<f32> = white.map(|tile| tile.sifted.loose(powder) as f32).collect();
        depths.sort_by(f32::total_cmp);
        let scatter = if tiles.iter().any(|tile| tile.over == Over::Black) {
            Known::Seen
        } else if powder.milkiness > 0.0 {
            Known::Said(powder.milkiness as f32)
        } else {
            Known::Transparent
        };
        // A photo's colors are off by light and white more than by its pixels: 1 at best, 2 where they lie far apart (a judgment).
        let spread = tiles.iter().filter_map(|tile| tile.spread).reduce(f64::max);
        let noise = spread.map_or(0.0, |spread| (0.5 * spread).clamp(1.0, 2.0)) as f32;
        Self { depths, scatter, noise }
    }

    /// No tile yet, of a glass that scatters so much per mm, says whoever made it up.
    pub(super) fn none(scatter: f32) -> Self {
        let scatter = if scatter > 0.0 { Known::Said(scatter) } else { Known::Transparent };
        Self { depths: Vec::new(), scatter, noise: 0.0 }
    }

    /// The same with one more tile over white, so deep.
    #[must_use]
    pub(super) fn with_white(&self, depth: f32) -> Self {
        let mut with = self.clone();
        with.depths.push(depth);
        with.depths.sort_by(f32::total_cmp);
        with
    }

    /// The same with a tile over black.
    #[must_use]
    pub(super) fn with_black(&self) -> Self {
        Self { scatter: Known::Seen, ..self.clone() }
    }

    /// Whether the scatter is only what the maker took for it.
    pub(super) fn scatter_is_said(&self) -> bool {
        matches!(self.scatter, Known::Said(_))
    }

    /// The scatter that the maker took for it, per mm; 0 if none.
    pub fn milkiness(&self) -> f64 {
        if let Known::Said(scatter) = self.scatter { scatter.into() } else { 0.0 }
    }

    /// The depths of loose powder of the tiles over white, mm, thinnest first.
    pub fn depths(&self) -> &[f32] {
        &self.depths
    }

    fn kind(&self) -> Kind {
        match self.scatter {
            Known::Seen => Kind::WhiteAndBlack,
            Known::Said(_) => Kind::ScatterSaid,
            Known::Transparent if self.ratio() > 1.5 => Kind::Several,
            Known::Transparent => Kind::One,
        }
    }

    /// The deepest tile over the thinnest one.
    fn ratio(&self) -> f32 {
        match self.depths[..] {
            [thinnest, .., deepest] => deepest / thinnest,
            _ => 1.0,
        }
    }

    /// How far `depth` (mm of loose powder) lies outside the tiles: below 1 under the thinnest, above 1 over the deepest.
    fn outside(&self, depth: f32) -> f32 {
        let (Some(thinnest), Some(deepest)) = (self.depths.first(), self.depths.last()) else { return 1.0 };
        match depth {
            depth if depth < *thinnest => depth / thinnest,
            depth if depth > *deepest => depth / deepest,
            _ => 1.0,
        }
    }

    fn at(&self, depth: f32, by: By) -> f32 {
        looked_up(self.kind(), self.noise, by, self.outside(depth))
    }

    /// The same at `ratio` times the depth of its only tile, as if each tile were the only one.
    pub(super) fn one_tile(&self, ratio: f64) -> f64 {
        let kind = if self.milkiness() > 0.0 { Kind::ScatterSaid } else { Kind::One };
        looked_up(kind, self.noise, By::Day, ratio as f32).into()
    }
}

/// The table at a depth that is `ratio` times a tile's, for colors read so well.
fn looked_up(kind: Kind, noise: f32, by: By, ratio: f32) -> f32 {
    let at = ((log2(ratio.at_least(1e-3)) + FURTHEST) / (2.0 * FURTHEST)).clamp(0.0, 1.0);
    let node = at * (NODES - 1) as f32;
    let first = (node as usize).clamp(0, NODES - 2);
    let read = noise.clamp(0.0, 1.999);
    let table = &FROM_TILES[kind as usize];
    let of = |noise: usize| {
        let row = &table[noise][by as usize];
        lerp(row[first], row[first + 1], node - first as f32)
    };
    lerp(of(read as usize), of(read as usize + 1), read.fract())
}

impl Sureness {
    /// What the colors of a glass rest on.
    pub fn of(glass: &Glass) -> Self {
        match &glass.source {
            Source::Invented => Self::Invented,
            Source::Measured { .. } => Self::Measured(MEASURED),
            // Without a tile over white nothing tells what it absorbs.
            Source::Tiles(tiles) if tiles.iter().all(|tile| tile.over != Over::White) => Self::Invented,
            Source::Tiles(tiles) => {
                let packing = glass.packing.unwrap_or(PACKING.usual);
                Self::Tiles(Evidence::of(
                    tiles,
                    &Powder {
                        packing,
                        density: glass.density,
                        milkiness: glass.material.mean_scatter().into(),
                    },
                ))
            }
        }
    }

    /// How far the color may be off at `depth` mm of loose powder, CIEDE2000; none for a glass that is made up.
    pub fn at(&self, depth: f32, by: By) -> Option<f32> {
        match self {
            Self::Invented => None,
            Self::Measured(off) => Some(*off),
            Self::Tiles(evidence) => Some(evidence.at(depth, by)),
        }
    }
}

/// How far a color of several glasses may be off, one on another or blended, each at its own depth: the sum. Together they darken more
/// than either alone, so their errors show as those of deeper coats do: the root of the squares' sum held for only 85 of 100 pairs from two
/// photographed tiles (`examples/how_sure`). Two together are never surer than `PAIR`. None if any of them is made up.
pub fn together(each: impl IntoIterator<Item = Option<f32>>) -> Option<f32> {
    let each = each.into_iter().collect::<Option<Vec<f32>>>()?;
    let sum: f32 = each.iter().sum();
    Some(if each.len() > 1 { sum.at_least(PAIR) } else { sum })
}
