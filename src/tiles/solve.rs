//! Smooth spectra whose tiles have the colors that were read.
//!
//! Three numbers of a color cannot fix sixteen bands, so a smooth spectrum is chosen that can be a glass's (`smooth.rs`): three coefficients
//! from tiles of one depth, six from tiles of several, and three more for scatter where a tile over black tells it.

use super::fired::Fired;
use super::least_squares::{Least, least};
use super::smooth;
use super::tile::Over;
use crate::base::scalar::{exp, ln};
use crate::color::difference::de2000;
use crate::glass::material::Material;

/// The glass that one tile over white would make by itself.
pub fn alone(tile: &Fired, milkiness: f64) -> Material {
    let shape = Shape { thickness: tile.thickness, absorbing: 3, scatter: Scatter::Said(milkiness) };
    shape.material(&darkening(&shape, std::slice::from_ref(tile)).at)
}

/// How scatter is known.
#[derive(Clone, Copy, Debug)]
enum Scatter {
    /// Per mm, the same in every band.
    Said(f64),
    /// As three more unknowns.
    Sought,
}

/// What unknowns mean.
#[derive(Clone, Copy, Debug)]
struct Shape {
    /// The thickness that they are given for, mm.
    thickness: f64,
    /// How many of them are the absorption's.
    absorbing: usize,
    scatter: Scatter,
}

/// Coefficients beyond these, of absorption and of scatter, cost something: what tiles leave open stays smooth.
const FREE: usize = 3;
const FREE_SCATTER: usize = 1;
/// How much: as if each were a tile's L*, a* or b*, so many times (own study of 400 glasses).
const PENALTY: f64 = 0.05;
/// Tiles whose sum of squared differences in L*, a*, b* is below this are met to single precision.
const MET: f64 = 1e-7;

impl Shape {
    fn material(&self, at: &[f64]) -> Material {
        Material {
            absorption: smooth::absorption(&at[..self.absorbing], self.thickness),
            scatter: match self.scatter {
                Scatter::Said(scatter) => smooth::flat(scatter),
                Scatter::Sought => smooth::scatter(&at[self.absorbing..], self.thickness),
            },
        }
    }

    fn residuals(&self, tiles: &[Fired], at: &[f64]) -> Vec<f64> {
        let material = self.material(at);
        let mut off = Vec::with_capacity(3 * tiles.len() + at.len());
        for tile in tiles {
            let predicted = tile.predicted(&material);
            off.extend((0..3).map(|i| predicted[i] - tile.color[i]));
        }
        let (absorbing, scattering) = at.split_at(self.absorbing);
        off.extend(absorbing.iter().skip(FREE).map(|c| PENALTY * c));
        off.extend(scattering.iter().skip(FREE_SCATTER).map(|s| PENALTY * s));
        off
    }

    fn least(&self, tiles: &[Fired], start: &[f64]) -> Least {
        least(start, MET, &|at| self.residuals(tiles, at))
    }

    /// The best from several starts; the first that meets the tiles will do.
    fn best(&self, tiles: &[Fired], starts: impl IntoIterator<Item = Vec<f64>>) -> Least {
        let mut best = Least { at: Vec::new(), sum: f64::INFINITY };
        for start in starts {
            let least = self.least(tiles, &start);
            if best.at.is_empty() || least.sum < best.sum {
                best = least;
            }
            if best.sum <= MET {
                break;
            }
        }
        best
    }
}

/// The glass that comes nearest to the tiles; `milkiness` is its scatter per mm, unless a tile over black tells it.
pub fn glass(tiles: &[Fired], milkiness: f64) -> Material {
    let (white, black): (Vec<Fired>, Vec<Fired>) =
        tiles.iter().cloned().partition(|tile| tile.over == Over::White);
    let depths: Vec<f64> = white.iter().map(|tile| tile.thickness).collect();
    let mean = exp(depths.iter().map(|thickness| ln(*thickness)).sum::<f64>() / depths.len() as f64);
    let absorbing = if several(&depths) { 6 } else { 3 };
    let said = if black.is_empty() { milkiness } else { 0.0 };
    let clear = Shape { thickness: mean, absorbing, scatter: Scatter::Said(said) };
    // Over black a clear glass shows next to nothing: its tiles there tell no more of what it absorbs.
    let as_clear = clear.material(&darkening(&clear, &white).at);
    if black.iter().all(|tile| de2000(tile.predicted(&as_clear), tile.color) <= DARK) {
        return as_clear;
    }
    let shape = Shape { scatter: Scatter::Sought, ..clear };
    let starts = [-3.0, -0.5, 2.0].map(|scatter| {
        let mut start = vec![0.0; absorbing + 3];
        (start[0], start[absorbing]) = (-1.0, scatter);
        start
    });
    shape.material(&shape.best(tiles, starts).at)
}

/// Depths that are a tenth apart tell more than one depth does.
fn several(thicknesses: &[f64]) -> bool {
    let (least, most) =
        thicknesses.iter().fold((f64::INFINITY, 0.0), |(least, most), x| (x.min(least), x.max(most)));
    most > 1.1 * least
}

/// Absorption alone: first three coefficients, then, from there, the rest.
fn darkening(shape: &Shape, tiles: &[Fired]) -> Least {
    let three = Shape { absorbing: 3, ..*shape };
    let starts = [
        [-1.0, 0.0, 0.0],
        [1.5, 0.0, 0.0],
        [-1.0, 4.0, 0.0],
        [-1.0, -4.0, 0.0],
        [-1.0, 0.0, 6.0],
        [0.0, 0.0, -6.0],
    ];
    let mut best = three.best(tiles, starts.map(Vec::from));
    if shape.absorbing > 3 {
        best.at.resize(shape.absorbing, 0.0);
        best = shape.least(tiles, &best.at);
    }
    best
}

/// A tile over black that is within this of what a transparent glass shows there is one, CIEDE2000: less than an 8-bit code shows
/// in the dark.
const DARK: f64 = 0.05;
