//! Random fields over the disc. A field is a function of millimeters, tabulated on a lattice of its own and
//! interpolated, so that a draft and a large print sample the same field.

use crate::base::scalar::{PI, floor, ln, sin_cos};
use noise::{NoiseFn, Perlin};
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
    /// Tabulates `f(x, y)` (mm) out to at least `reach` mm from the origin in steps of `pitch` mm.
    pub fn new(reach: f32, pitch: f32, mut f: impl FnMut(f32, f32) -> [f32; N]) -> Self {
        let half = (reach / pitch) as usize + 2;
        let n = 2 * half + 1;
        let at = |i: usize| (i as f32 - half as f32) * pitch;
        let mut values = Vec::with_capacity(n * n);
        for j in 0..n {
            for i in 0..n {
                values.push(f(at(i), at(j)));
            }
        }
        Self { per_mm: 1.0 / pitch, middle: half as f32, n, values }
    }

    /// The values at (x, y) mm; beyond the lattice, those of its edge.
    #[inline]
    pub fn all(&self, x: f32, y: f32) -> [f32; N] {
        let (i, tx) = self.place(x);
        let (j, ty) = self.place(y);
        let at = j * self.n + i;
        let (lower, upper) = (&self.values[at..at + 2], &self.values[at + self.n..at + self.n + 2]);
        let mut out = [0.0; N];
        for k in 0..N {
            let a = lower[0][k] + (lower[1][k] - lower[0][k]) * tx;
            let b = upper[0][k] + (upper[1][k] - upper[0][k]) * tx;
            out[k] = a + (b - a) * ty;
        }
        out
    }

    #[inline]
    fn place(&self, x: f32) -> (usize, f32) {
        let u = (x * self.per_mm + self.middle).clamp(0.0, self.n as f32 - 1.001);
        let i = u as usize;
        (i, u - i as f32)
    }

    /// Shifts and scales each field to mean 0 and standard deviation 1 over the disc of this radius.
    fn standardize(mut self, radius: f32) -> Self {
        let r2 = radius * self.per_mm * radius * self.per_mm;
        let (mut count, mut sum, mut squares) = (0.0f64, [0.0f64; N], [0.0f64; N]);
        for j in 0..self.n {
            for i in 0..self.n {
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

impl Lattice {
    /// The value at (x, y) mm.
    #[inline]
    pub fn sample(&self, x: f32, y: f32) -> f32 {
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
    let half = (reach / pitch) as usize + 2;
    let n = 2 * half + 1;
    let amplitude = (2.0 / WAVES as f32).sqrt();
    let mut values = vec![[0.0f32]; n * n];
    let turn: f64 = rng.random();
    // A wave is a product of sines along x and y, so a row costs two multiplications a point.
    let (mut cos_x, mut sin_x) = (vec![0.0f32; n], vec![0.0f32; n]);
    for wave in 0..WAVES {
        // Length by stratum, direction by the golden angle, so that neighbors in length differ in direction.
        let u = (wave as f64 + rng.random::<f64>()) / WAVES as f64;
        let k = (-2.0 * ln(1.0 - u)).sqrt() / f64::from(ell);
        let angle =
            2.0 * f64::from(PI) * (turn + wave as f64 * 0.618_033_988_75 + 0.02 * rng.random::<f64>());
        let (sin, cos) = sin_cos(angle);
        let phase = 2.0 * f64::from(PI) * rng.random::<f64>();
        let (kx, ky) = (k * cos * f64::from(pitch), k * sin * f64::from(pitch));
        for ((s, c), (sx, cx)) in Turning::new(-kx * half as f64, kx).zip(sin_x.iter_mut().zip(&mut cos_x)) {
            (*sx, *cx) = (s as f32, c as f32);
        }
        for (j, (s, c)) in (0..n).zip(Turning::new(phase - ky * half as f64, ky)) {
            let (s, c) = (s as f32 * amplitude, c as f32 * amplitude);
            let row = &mut values[j * n..(j + 1) * n];
            for ((v, cx), sx) in row.iter_mut().zip(&cos_x).zip(&sin_x) {
                v[0] += c * cx - s * sx;
            }
        }
    }
    Lattice { per_mm: 1.0 / pitch, middle: half as f32, n, values }
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
pub fn fractal<const N: usize>(
    rng: &mut impl Rng,
    size: f32,
    octaves: u32,
    gain: f32,
    radius: f32,
    reach: f32,
) -> Lattice<N> {
    let perlin = Perlin::new(rng.random());
    let shifts: [[f64; 2]; N] =
        std::array::from_fn(|_| [rng.random::<f64>() * 64.0, rng.random::<f64>() * 64.0]);
    let finest = size / (1u32 << (octaves - 1)) as f32;
    let edge = (reach + finest) * (reach + finest);
    let octave = |x: f32, y: f32, shift: [f64; 2]| {
        let mut sum = 0.0;
        let (mut scale, mut weight) = (1.0 / f64::from(size), 1.0f32);
        for octave in 0..octaves {
            let offset = f64::from(octave) * 17.3;
            let point = [f64::from(x) * scale + shift[0] + offset, f64::from(y) * scale + shift[1] - offset];
            sum += weight * perlin.get(point) as f32;
            scale *= 2.0;
            weight *= gain;
        }
        sum
    };
    let field = Lattice::new(reach, finest / POINTS_PER_FEATURE, |x, y| {
        if x * x + y * y > edge { [0.0; N] } else { shifts.map(|shift| octave(x, y, shift)) }
    });
    field.standardize(radius)
}

/// Lattice points to the width of the finest feature.
const POINTS_PER_FEATURE: f32 = 2.4;

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
    values: Vec<f32>,
}

impl Tile {
    /// A tile of these values; `n` is a power of two.
    pub fn new(n: usize, pitch: f32, values: Vec<f32>) -> Self {
        debug_assert!(n.is_power_of_two() && values.len() == n * n);
        Self { n, per_mm: 1.0 / pitch, values }
    }

    /// The tile with its values changed as a whole.
    pub fn map(self, change: impl FnOnce(Vec<f32>) -> Vec<f32>) -> Self {
        Self { values: change(self.values), ..self }
    }

    /// The tile at half as many points, each the mean of four.
    pub fn coarser(&self) -> Self {
        let n = self.n / 2;
        let mut values = Vec::with_capacity(n * n);
        for j in 0..n {
            for i in 0..n {
                let at = 2 * j * self.n + 2 * i;
                let four = [at, at + 1, at + self.n, at + self.n + 1].map(|k| self.values[k]);
                values.push(0.25 * (four[0] + four[1] + four[2] + four[3]));
            }
        }
        Self { n, per_mm: 0.5 * self.per_mm, values }
    }

    /// The value at (x, y) mm, interpolated linearly.
    #[inline]
    pub fn sample(&self, x: f32, y: f32) -> f32 {
        self.weighed(x, y).0
    }

    /// The value at (x, y) mm of a tile of independent values of deviation 1, interpolated so that the deviation is 1
    /// between its points too.
    #[inline]
    pub fn sample_even(&self, x: f32, y: f32) -> f32 {
        let (value, squares) = self.weighed(x, y);
        value / squares.sqrt()
    }

    /// The interpolated value, and the sum of the squares of the weights.
    #[inline]
    fn weighed(&self, x: f32, y: f32) -> (f32, f32) {
        // A coarser tile's points lie in the middle of the four they stand for.
        let (u, v) = (x * self.per_mm - 0.5, y * self.per_mm - 0.5);
        let (i, j) = (floor(u), floor(v));
        let (tx, ty) = (u - i as f32, v - j as f32);
        let mask = self.n - 1;
        let (i0, j0) = (i as usize & mask, j as usize & mask);
        let (i1, j1) = ((i0 + 1) & mask, (j0 + 1) & mask);
        let at = |i: usize, j: usize| self.values[j * self.n + i];
        let a = at(i0, j0) + (at(i1, j0) - at(i0, j0)) * tx;
        let b = at(i0, j1) + (at(i1, j1) - at(i0, j1)) * tx;
        let squares = |t: f32| 1.0 + 2.0 * t * (t - 1.0);
        (a + (b - a) * ty, squares(tx) * squares(ty))
    }
}
