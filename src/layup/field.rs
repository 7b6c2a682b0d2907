//! Random fields over the disc. A field is a function of millimeters, tabulated on a lattice of its own and
//! interpolated, so that a draft and a large print sample the same field.

use crate::base::lanes::{Four, LANES, Number, load, store};
use crate::base::rows::each_row;
use crate::base::scalar::{PI, lerp, ln, pow, sin_cos};
use noise::{NoiseFn, SuperSimplex};
use rand::{Rng, RngExt};

/// `N` fields tabulated together, interpolated linearly between the points of a square lattice about the origin.
#[derive(Clone, Debug)]
pub struct Lattice<const N: usize = 1> {
    per_mm: f32,
    middle: f32,
    n: usize,
    values: Vec<[f32; N]>,
}

impl<const N: usize> Lattice<N> {
    /// A table of zeros out to at least `reach` mm from the origin in steps of `pitch` mm.
    fn flat(reach: f32, pitch: f32) -> Self {
        let half = (reach / pitch) as usize + 2;
        let n = 2 * half + 1;
        Self { per_mm: 1.0 / pitch, middle: half as f32, n, values: vec![[0.0; N]; n * n] }
    }

    /// The smooth surface that the values are the knots of, in a table of this pitch, mm, out to `reach` mm: two knots less
    /// than they reach.
    pub(super) fn smooth(&self, reach: f32, pitch: f32) -> Self {
        let mut fine = Self::flat(reach, pitch);
        fine.add_spline(self);
        fine
    }

    /// Adds the smooth surface that the values of a coarser table are the knots of.
    fn add_spline(&mut self, knots: &Self) {
        let taps: Vec<(usize, [f32; 4])> = (0..self.n)
            .map(|i| {
                let at = (i as f32 - self.middle) / self.per_mm;
                let (knot, t) = knots.place(at);
                ((knot as usize).clamp(1, knots.n - 3) - 1, spline(t))
            })
            .collect();
        let blend = |four: [&[f32; N]; 4], w: [f32; 4]| -> [f32; N] {
            std::array::from_fn(|k| {
                four[0][k] * w[0] + four[1][k] * w[1] + four[2][k] * w[2] + four[3][k] * w[3]
            })
        };
        // Along the rows of knots first, then across them.
        let mut rows = Vec::with_capacity(knots.n * self.n);
        for row in knots.values.chunks_exact(knots.n) {
            rows.extend(taps.iter().map(|(at, w)| blend(std::array::from_fn(|k| &row[at + k]), *w)));
        }
        let n = self.n;
        each_row(&mut self.values, n, |j, out| {
            let (at, w) = &taps[j];
            let [a, b, c, d] = std::array::from_fn(|k| rows[(at + k) * n..][..n].as_flattened());
            add_weighed(out.as_flattened_mut(), [a, b, c, d], w.map(Four::splat));
        });
    }

    /// Tabulates `f(x, y)` (mm) out to at least `reach` mm from the origin in steps of `pitch` mm.
    pub fn new(reach: f32, pitch: f32, f: impl Fn(f32, f32) -> [f32; N] + Sync) -> Self {
        let mut table = Self::flat(reach, pitch);
        let (n, half) = (table.n, table.middle);
        let at = |i: usize| (i as f32 - half) * pitch;
        each_row(&mut table.values, n, |j, row| {
            row.iter_mut().enumerate().for_each(|(i, value)| *value = f(at(i), at(j)));
        });
        table
    }

    /// The values at (x, y) mm; beyond the lattice, those of its edge.
    #[inline]
    pub fn all<T: Number>(&self, x: T, y: T) -> [T; N] {
        T::between(&self.values, self.n, self.place(x), self.place(y))
    }

    /// The point before a place along an axis, and how far beyond it the place lies.
    #[inline]
    fn place<T: Number>(&self, x: T) -> (T, T) {
        (x * self.per_mm + self.middle).point_among(self.n)
    }

    /// Shifts and scales each field to mean 0 and standard deviation 1 over the disc of this radius.
    fn standardize(mut self, radius: f32) -> Self {
        let r2 = radius * self.per_mm * radius * self.per_mm;
        let (mut count, mut sum, mut squares) = (0.0f64, [0.0f64; N], [0.0f64; N]);
        // Neighbors in the table are alike: every third point tells as much.
        for j in (0..self.n).step_by(3) {
            for i in (0..self.n).step_by(3) {
                let (x, y) = (i as f32 - self.middle, j as f32 - self.middle);
                if x * x + y * y <= r2 {
                    count += 1.0;
                    for (k, v) in self.values[j * self.n + i].iter().enumerate() {
                        sum[k] += f64::from(*v);
                        squares[k] += f64::from(*v) * f64::from(*v);
                    }
                }
            }
        }
        for k in 0..N {
            let mean = sum[k] / count;
            let scale = (1.0 / (squares[k] / count - mean * mean).max(1e-12).sqrt()) as f32;
            for v in &mut self.values {
                v[k] = (v[k] - mean as f32) * scale;
            }
        }
        self
    }
}

/// Adds four rows to one of the same length, each by its weight.
fn add_weighed(out: &mut [f32], rows: [&[f32]; 4], weights: [Four; 4]) {
    let (fours, end) = out.as_chunks_mut::<LANES>();
    let [a, b, c, d] = rows.map(|row| row.as_chunks::<LANES>());
    for ((((out, a), b), c), d) in fours.iter_mut().zip(a.0).zip(b.0).zip(c.0).zip(d.0) {
        let [a, b, c, d] = [a, b, c, d].map(|four| Four::new(*four));
        let sum = a * weights[0] + b * weights[1] + c * weights[2] + d * weights[3];
        *out = (Four::new(*out) + sum).to_array();
    }
    let [a, b, c, d] = [a.1, b.1, c.1, d.1].map(load);
    store(end, load(end) + (a * weights[0] + b * weights[1] + c * weights[2] + d * weights[3]));
}

impl Lattice {
    /// The value at (x, y) mm.
    #[inline]
    pub fn sample<T: Number>(&self, x: T, y: T) -> T {
        self.all(x, y)[0]
    }

    /// The field together with the inverse of its slope, in mm per unit of the field: a difference of the field
    /// times that is about a distance. Slopes below `least` (per mm) count as `least`.
    pub fn with_inverse_slope(&self, least: f32) -> Lattice<2> {
        let n = self.n;
        let mut values = Vec::with_capacity(n * n);
        for j in 0..n {
            for i in 0..n {
                let (l, r) = (i.saturating_sub(1), (i + 1).min(n - 1));
                let (d, u) = (j.saturating_sub(1), (j + 1).min(n - 1));
                let across = self.values[j * n + r][0] - self.values[j * n + l][0];
                let along = self.values[u * n + i][0] - self.values[d * n + i][0];
                let (dx, dy) = (across * self.per_mm / (r - l) as f32, along * self.per_mm / (u - d) as f32);
                let inverse = 1.0 / (dx * dx + dy * dy + least * least).sqrt();
                values.push([self.values[j * n + i][0], inverse]);
            }
        }
        Lattice { per_mm: self.per_mm, middle: self.middle, n, values }
    }
}

/// Waves in a [`plane_waves`] field: enough for a Gaussian field, few enough to be cheap.
const WAVES: usize = 40;

/// A smooth Gaussian field of mean 0, variance 1 and covariance exp(-r²/(2 ell²)), as a sum of plane waves with
/// directions and lengths stratified over that covariance's spectrum (mm).
pub fn plane_waves(rng: &mut impl Rng, ell: f32, reach: f32, pitch: f32) -> Lattice {
    let mut table = Lattice::flat(reach, pitch);
    let (n, half) = (table.n, f64::from(table.middle));
    let amplitude = (2.0 / WAVES as f32).sqrt();
    let turn: f64 = rng.random();
    // A wave is a product of sines along x and y, so a row costs two multiplications a point.
    let waves: [Wave; WAVES] = std::array::from_fn(|wave| {
        // Length by stratum, direction by the golden angle, so that neighbors in length differ in direction.
        let u = (wave as f64 + rng.random::<f64>()) / WAVES as f64;
        let k = (-2.0 * ln(1.0 - u)).sqrt() / f64::from(ell);
        let angle =
            2.0 * f64::from(PI) * (turn + wave as f64 * 0.618_033_988_75 + 0.02 * rng.random::<f64>());
        let (sin, cos) = sin_cos(angle);
        let phase = 2.0 * f64::from(PI) * rng.random::<f64>();
        let (kx, ky) = (k * cos * f64::from(pitch), k * sin * f64::from(pitch));
        let single = |(s, c): (f64, f64)| (s as f32, c as f32);
        Wave {
            across: Turning::new(-kx * half, kx).take(n).map(single).unzip(),
            down: Turning::new(phase - ky * half, ky).take(n).map(single).collect(),
        }
    });
    each_row(&mut table.values, n, |j, row| {
        for Wave { across: (sin, cos), down } in &waves {
            let (s, c) = (down[j].0 * amplitude, down[j].1 * amplitude);
            for ((v, cx), sx) in row.iter_mut().zip(cos).zip(sin) {
                v[0] += c * cx - s * sx;
            }
        }
    });
    table
}

/// Sines and cosines of one wave along x and along y.
struct Wave {
    across: (Vec<f32>, Vec<f32>),
    down: Vec<(f32, f32)>,
}

/// Sine and cosine of an angle that turns by even steps: each from the one before, by the sum of angles.
struct Turning {
    now: (f64, f64),
    step: (f64, f64),
}

impl Turning {
    fn new(from: f64, step: f64) -> Self {
        Self { now: sin_cos(from), step: sin_cos(step) }
    }
}

impl Iterator for Turning {
    type Item = (f64, f64);

    fn next(&mut self) -> Option<(f64, f64)> {
        let ((s, c), (ds, dc)) = (self.now, self.step);
        self.now = (s * dc + c * ds, c * dc - s * ds);
        Some((s, c))
    }
}

/// `N` fields of gradient noise with features about `size` mm wide, each further octave half as wide and `gain`
/// times as strong; mean 0 and standard deviation 1 over the disc of radius `radius`.
///
/// Every octave of every field is turned by an angle of its own, and the noise is that of a triangular lattice whose bumps
/// are round: its power is the same in all directions.
pub fn fractal<const N: usize>(
    rng: &mut impl Rng,
    size: f32,
    octaves: u32,
    gain: f32,
    radius: f32,
    reach: f32,
) -> Lattice<N> {
    let finest = size / (1u32 << (octaves - 1)) as f32;
    let pitch = (finest / POINTS_PER_FEATURE).clamp(PITCHES.0, PITCHES.1);
    knots(rng, size, octaves, gain, reach).smooth(reach, pitch).standardize(radius)
}

/// The pane that other fields are seen through: two such fields, in a coarser table, since a pane's creases do not show.
pub(super) fn pane(rng: &mut impl Rng, size: f32, octaves: u32, radius: f32, reach: f32) -> Lattice<2> {
    knots(rng, size, octaves, 0.5, reach).smooth(reach, PITCHES.1).standardize(radius)
}

/// Gradient noise as [`fractal`] has it, as knots of a spline and not yet standardized.
fn knots<const N: usize>(rng: &mut impl Rng, size: f32, octaves: u32, gain: f32, reach: f32) -> Lattice<N> {
    let noise = SuperSimplex::new(rng.random());
    let finest = size / (1u32 << (octaves - 1)) as f32;
    // A spline needs knots a little beyond what it spans.
    let mut knots =
        octave(rng, &noise, finest, pow(gain.into(), f64::from(octaves - 1)) as f32, reach + finest);
    for octave_up in 1..octaves {
        let size = finest * (1u32 << octave_up) as f32;
        let weight = pow(gain.into(), f64::from(octaves - 1 - octave_up)) as f32;
        knots.add_spline(&octave(rng, &noise, size, weight, reach + finest + size));
    }
    knots
}

/// One octave of `N` fields out to `reach` mm, as knots of a spline.
fn octave<const N: usize>(
    rng: &mut impl Rng,
    noise: &SuperSimplex,
    size: f32,
    weight: f32,
    reach: f32,
) -> Lattice<N> {
    let sheets: [Sheet; N] = std::array::from_fn(|_| Sheet::random(rng, size));
    Lattice::new(reach, size / KNOTS_PER_FEATURE, |x, y| {
        if x * x + y * y > reach * reach {
            [0.0; N]
        } else {
            std::array::from_fn(|k| weight * noise.get(sheets[k].at(x, y)) as f32)
        }
    })
}

/// Points of the finished table to the width of the finest feature: at fewer, the creases between them show in a slope.
const POINTS_PER_FEATURE: f32 = 16.0;
/// Bounds of the finished table's pitch, mm: about a cell of a fine picture, and no more than two.
const PITCHES: (f32, f32) = (0.28, 0.5);
/// Knots of the spline, at which the noise is asked for, to the width of a feature.
const KNOTS_PER_FEATURE: f32 = 2.5;
/// Lattice units of the noise to the width of a feature: with it the slopes are as steep, for the same deviation, as those of
/// square-lattice gradient noise of one feature to a cell (2.90 per feature; computed).
const UNITS_PER_FEATURE: f64 = 0.8;

/// How one octave of noise lies over the disc: turned and shifted by chance.
struct Sheet {
    cos: f64,
    sin: f64,
    shift: [f64; 2],
}

impl Sheet {
    fn random(rng: &mut impl Rng, size: f32) -> Self {
        let (sin, cos) = sin_cos(2.0 * f64::from(PI) * rng.random::<f64>());
        let scale = UNITS_PER_FEATURE / f64::from(size);
        let shift = [rng.random::<f64>() * 64.0, rng.random::<f64>() * 64.0];
        Self { cos: scale * cos, sin: scale * sin, shift }
    }

    fn at(&self, x: f32, y: f32) -> [f64; 2] {
        let (x, y) = (f64::from(x), f64::from(y));
        [self.cos * x - self.sin * y + self.shift[0], self.sin * x + self.cos * y + self.shift[1]]
    }
}

/// Weights of four knots at a place `t` (0 to 1) between the middle two: the uniform cubic B-spline (de Boor 1978, from
/// memory). It has no creases, and what it lets through of its knots' lattice is less than a hundredth.
#[inline]
pub fn spline(t: f32) -> [f32; 4] {
    let u = 1.0 - t;
    let near = |t: f32| (1.0 / 6.0) * (4.0 - 3.0 * t * t * (2.0 - t));
    [(1.0 / 6.0) * u * u * u, near(t), near(u), (1.0 / 6.0) * t * t * t]
}

/// A whole-number hash of a lattice point: the same luck at the same millimeter, whatever the grid.
pub fn hash(x: i32, y: i32, key: u32) -> u32 {
    let mut h = (x as u32).wrapping_mul(0x9e37_79b1) ^ (y as u32).wrapping_mul(0x85eb_ca77) ^ key;
    h = (h ^ (h >> 16)).wrapping_mul(0x7feb_352d);
    h = (h ^ (h >> 15)).wrapping_mul(0x846c_a68b);
    h ^ (h >> 16)
}

/// A number of about the standard normal distribution from a hash: the sum of its four bytes, standardized.
pub fn hashed_normal(h: u32) -> f32 {
    let sum = (h & 255) + (h >> 8 & 255) + (h >> 16 & 255) + (h >> 24);
    // Each byte has mean 127.5 and variance (256² - 1)/12.
    (sum as f32 - 510.0) * (1.0 / 147.799)
}

/// A field on a square that repeats: `n` x `n` values, one every `pitch` mm.
#[derive(Clone, Debug)]
pub struct Tile {
    n: usize,
    per_mm: f32,
    /// With the first column and row once more behind the last.
    values: Vec<[f32; 1]>,
}

impl Tile {
    /// A tile of these values, row by row; `n` is a power of two.
    pub fn new(n: usize, pitch: f32, values: &[f32]) -> Self {
        debug_assert!(n.is_power_of_two() && values.len() == n * n);
        let at = |i: usize, j: usize| [values[j % n * n + i % n]];
        Self {
            n,
            per_mm: 1.0 / pitch,
            values: (0..=n).flat_map(|j| (0..=n).map(move |i| at(i, j))).collect(),
        }
    }

    /// The value at (x, y) mm of a tile of independent values of deviation 1, interpolated so that the deviation is 1
    /// between its points too: over the root of the sum of the squares of the weights.
    #[inline]
    pub fn sample_even<T: Number>(&self, x: T, y: T) -> T {
        let (across, down) = (self.place(x), self.place(y));
        let [value] = T::between(&self.values, self.n + 1, across, down);
        value / (squares(across.1) * squares(down.1)).root()
    }

    /// The tile along a line at `y` mm.
    pub fn line(&self, y: f32) -> Line<'_> {
        let (j, down) = self.place(y);
        let row = |j: usize| self.values[j * (self.n + 1)..][..self.n + 1].as_flattened();
        let (upper, lower) = (row(j as usize), row(j as usize + 1));
        let values = upper.iter().zip(lower).map(|(upper, lower)| lerp(*upper, *lower, down)).collect();
        Line { tile: self, values, squares: squares(down) }
    }

    /// The point before a place along an axis, and how far beyond it the place lies.
    #[inline]
    fn place<T: Number>(&self, x: T) -> (T, T) {
        // A coarser tile's points lie in the middle of the four they stand for.
        let (u, n) = (x * self.per_mm - 0.5, self.n as f32);
        let i = u.floor_of();
        (i - (i / n).floor_of() * n, u - i)
    }
}

/// The sum of the squares of two weights, by a share of the way from one to the other.
#[inline]
fn squares<T: Number>(t: T) -> T {
    (t + t) * (t - 1.0) + 1.0
}

/// A tile along a line.
pub struct Line<'a> {
    tile: &'a Tile,
    values: Vec<f32>,
    squares: f32,
}

impl Line<'_> {
    /// The values at four places x, mm, interpolated linearly.
    #[inline]
    pub fn sample(&self, x: Four) -> Four {
        Four::along(&self.values, self.tile.place(x))
    }

    /// The same as [`Tile::sample_even`].
    #[inline]
    pub fn sample_even(&self, x: Four) -> Four {
        let place = self.tile.place(x);
        Four::along(&self.values, place) / (squares(place.1) * self.squares).root()
    }
}
