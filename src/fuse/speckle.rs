//! Grain speckle: a sifted bed is a random scatter of grains, so its depth is never quite even. The grains' luck
//! hangs on a fixed lattice in mm, so that it is the same in a draft and in a large print.

use super::leveling::{LEVELING, gaussian};
use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, exp};
use crate::layup::field::{Tile, hash, hashed_normal};
use std::sync::OnceLock;

/// Spacing of the lattice, mm.
const PITCH: f32 = 0.25;
/// Points along a side of the tile of luck; it repeats every 128 mm.
const POINTS: usize = 512;
/// Tiles, each half as fine as the one before.
const TILES: usize = 5;
/// Spread of the logarithm of the grains' diameter.
const SPREAD: f64 = 0.35;

/// How grains of one size scatter about a mean depth of glass.
#[derive(Clone, Copy, Debug)]
pub struct Speckle {
    /// Grains per mm of glass that share one sample.
    per_mm: f32,
    shift: (f32, f32),
    tile: &'static Tile,
    /// Whether the tile's values are independent: those of loose powder are, leveled ones hang together.
    independent: bool,
}

impl Speckle {
    /// Speckle of loose powder: grains of `grain` mm (median), seen in cells of `cell` mm.
    pub fn loose(grain: f32, cell: f32, key: u32) -> Self {
        static TILES: OnceLock<Vec<Tile>> = OnceLock::new();
        Self::new(grain, cell, key, 0.0, TILES.get_or_init(|| luck(0.0)))
    }

    /// Speckle after firing, softened by leveling.
    pub fn fired(grain: f32, cell: f32, key: u32) -> Self {
        static TILES: OnceLock<Vec<Tile>> = OnceLock::new();
        Self::new(grain, cell, key, LEVELING, TILES.get_or_init(|| luck(LEVELING)))
    }

    fn new(grain: f32, cell: f32, key: u32, leveling: f32, tiles: &'static [Tile]) -> Self {
        // A cell wider than a grain's lattice is the mean of the lattice points in it.
        let coarser =
            (0..tiles.len() - 1).take_while(|level| cell > PITCH * 1.41 * (1 << level) as f32).count();
        let shift = ((key & 0xffff) as f32 * 0.125, (key >> 16) as f32 * 0.125);
        Self {
            per_mm: per_mm(grain, cell, leveling),
            shift,
            tile: &tiles[coarser],
            independent: leveling == 0.0,
        }
    }

    /// Along a line at `y` mm, `f(mean, x)`: the depth of glass that lies at x mm where `mean` mm are meant: never negative, right on
    /// average.
    pub fn along(&self, y: f32) -> impl Fn(Four, Four) -> Four {
        let (line, zero) = (self.tile.line(y + self.shift.1), Four::of(0.0));
        move |mean, x| {
            let grains = mean * self.per_mm;
            // The square root of a Poisson count is about normal with standard deviation 1/2 at any mean.
            let x = x + self.shift.0;
            let luck = if self.independent { line.sample_even(x) } else { line.sample(x) };
            let root = (grains.at_least(zero).root() + luck * 0.5).at_least(zero);
            mean.above(zero, mean * root * root / (grains + 0.25), zero)
        }
    }
}

/// Grains per mm of glass that share one sample of so many mm, leveled over so many.
fn per_mm(grain: f32, cell: f32, leveling: f32) -> f32 {
    // Effective volume of a lognormal grain, which sets both the number and the scatter: v exp(9 s²).
    let volume = std::f64::consts::PI / 6.0 * f64::from(grain * grain * grain) * exp(13.5 * SPREAD * SPREAD);
    let side = cell.at_least(PITCH);
    let area = f64::from(side * side + 4.0 * crate::base::scalar::PI * leveling * leveling);
    (area / volume) as f32
}

/// Standard deviation of the depth of fired glass over its mean, seen as closely as there is luck: where `mean` mm are meant of grains of
/// `grain` mm (median).
pub fn fired_variation(grain: f32, mean: f32) -> f32 {
    1.0 / (mean * per_mm(grain, PITCH, LEVELING)).sqrt()
}

/// Tiles of standard normal numbers, each half as fine as the one before, blurred by a Gaussian of `leveling` mm.
fn luck(leveling: f32) -> Vec<Tile> {
    let mut values: Vec<f32> = (0..POINTS * POINTS)
        .map(|k| hashed_normal(hash((k % POINTS) as i32, (k / POINTS) as i32, 0x5eed)))
        .collect();
    if leveling > 0.0 {
        values = blur_wrapped(&values, &gaussian(leveling / PITCH));
    }
    let finest = standardized(values);
    let finer = std::iter::successors(Some((POINTS, PITCH, finest)), |(points, pitch, values)| {
        Some((points / 2, 2.0 * pitch, standardized(coarser(*points, values))))
    });
    finer.take(TILES).map(|(points, pitch, values)| Tile::new(points, pitch, &values)).collect()
}

/// A square of `n` x `n` values at half as many points, each the mean of four.
fn coarser(n: usize, values: &[f32]) -> Vec<f32> {
    let mean = |i: usize, j: usize| {
        let at = 2 * j * n + 2 * i;
        0.25 * (values[at] + values[at + 1] + values[at + n] + values[at + n + 1])
    };
    (0..n / 2).flat_map(|j| (0..n / 2).map(move |i| mean(i, j))).collect()
}

fn standardized(mut values: Vec<f32>) -> Vec<f32> {
    let mean = values.iter().sum::<f32>() / values.len() as f32;
    let variance = values.iter().map(|v| (v - mean) * (v - mean)).sum::<f32>() / values.len() as f32;
    let scale = 1.0 / variance.sqrt();
    for v in &mut values {
        *v = (*v - mean) * scale;
    }
    values
}

fn blur_wrapped(values: &[f32], kernel: &[f32]) -> Vec<f32> {
    let reach = kernel.len() / 2;
    let at = |i: usize, k: usize| (i + POINTS + k - reach) % POINTS;
    let mut across = vec![0.0f32; values.len()];
    for (p, out) in across.iter_mut().enumerate() {
        let (i, row) = (p % POINTS, p / POINTS * POINTS);
        *out = kernel.iter().enumerate().map(|(k, w)| w * values[row + at(i, k)]).sum();
    }
    let mut down = vec![0.0f32; values.len()];
    for (p, out) in down.iter_mut().enumerate() {
        let (i, j) = (p % POINTS, p / POINTS);
        *out = kernel.iter().enumerate().map(|(k, w)| w * across[at(j, k) * POINTS + i]).sum();
    }
    down
}
