//! Random fields over the disc. A field is a function of millimeters, tabulated on a lattice of its own and
//! interpolated, so that a draft and a large print sample the same field.

use crate::base::scalar::{PI, floor, ln, sin_cos};
use noise::{NoiseFn, Perlin};
use rand::{Rng, RngExt};

/// A tabulated field, interpolated linearly between the points of a square lattice about the origin.
#[derive(Clone, Debug)]
pub struct Lattice {
    per_mm: f32,
    middle: f32,
    n: usize,
    values: Vec<f32>,
}

impl Lattice {
    /// Tabulates `f(x, y)` (mm) out to at least `reach` mm from the origin in steps of `pitch` mm.
    pub fn new(reach: f32, pitch: f32, mut f: impl FnMut(f32, f32) -> f32) -> Self {
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

    /// The value at (x, y) mm; beyond the lattice, that of its edge.
    pub fn sample(&self, x: f32, y: f32) -> f32 {
        let (i, tx) = self.place(x);
        let (j, ty) = self.place(y);
        let at = j * self.n + i;
        let (lower, upper) = (&self.values[at..at + 2], &self.values[at + self.n..at + self.n + 2]);
        let a = lower[0] + (lower[1] - lower[0]) * tx;
        let b = upper[0] + (upper[1] - upper[0]) * tx;
        a + (b - a) * ty
    }

    fn place(&self, x: f32) -> (usize, f32) {
        let u = (x * self.per_mm + self.middle).clamp(0.0, self.n as f32 - 1.001);
        let i = u as usize;
        (i, u - i as f32)
    }

    /// Shifts and scales the field to mean 0 and standard deviation 1 over the disc of this radius.
    fn standardize(mut self, radius: f32) -> Self {
        let (mut count, mut sum, mut squares) = (0.0f64, 0.0f64, 0.0f64);
        let r2 = radius * self.per_mm * radius * self.per_mm;
        for j in 0..self.n {
            for i in 0..self.n {
                let (x, y) = (i as f32 - self.middle, j as f32 - self.middle);
                if x * x + y * y <= r2 {
                    let v = f64::from(self.values[j * self.n + i]);
                    count += 1.0;
                    sum += v;
                    squares += v * v;
                }
            }
        }
        let mean = sum / count;
        let deviation = (squares / count - mean * mean).max(1e-12).sqrt();
        let (mean, scale) = (mean as f32, (1.0 / deviation) as f32);
        for v in &mut self.values {
            *v = (*v - mean) * scale;
        }
        self
    }

    /// 1 / max-like norm of the slope, in mm per unit of the field: times a difference of the field it is about a
    /// distance. `least` is the slope (per mm) below which the ground counts as flat.
    pub fn inverse_slope(&self, least: f32) -> Self {
        let n = self.n;
        let mut values = vec![0.0; n * n];
        for j in 0..n {
            for i in 0..n {
                let (l, r) = (i.saturating_sub(1), (i + 1).min(n - 1));
                let (d, u) = (j.saturating_sub(1), (j + 1).min(n - 1));
                let dx = (self.values[j * n + r] - self.values[j * n + l]) * self.per_mm / (r - l) as f32;
                let dy = (self.values[u * n + i] - self.values[d * n + i]) * self.per_mm / (u - d) as f32;
                values[j * n + i] = 1.0 / (dx * dx + dy * dy + least * least).sqrt();
            }
        }
        Self { values, ..self.clone() }
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
    let mut values = vec![0.0f32; n * n];
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
        for i in 0..n {
            let (s, c) = sin_cos(kx * (i as f64 - half as f64));
            (sin_x[i], cos_x[i]) = (s as f32, c as f32);
        }
        for j in 0..n {
            let (s, c) = sin_cos(ky * (j as f64 - half as f64) + phase);
            let (s, c) = (s as f32 * amplitude, c as f32 * amplitude);
            let row = &mut values[j * n..(j + 1) * n];
            for ((v, cx), sx) in row.iter_mut().zip(&cos_x).zip(&sin_x) {
                *v += c * cx - s * sx;
            }
        }
    }
    Lattice { per_mm: 1.0 / pitch, middle: half as f32, n, values }
}

/// Gradient noise with features about `size` mm wide, each further octave half as wide and `gain` times as strong;
/// mean 0 and standard deviation 1 over the disc of radius `radius`.
pub fn fractal(rng: &mut impl Rng, size: f32, octaves: u32, gain: f32, radius: f32, reach: f32) -> Lattice {
    let perlin = Perlin::new(rng.random());
    let shift: [f64; 2] = [rng.random::<f64>() * 64.0, rng.random::<f64>() * 64.0];
    let finest = size / (1u32 << (octaves - 1)) as f32;
    let edge = (reach + finest) * (reach + finest);
    let field = Lattice::new(reach, finest / 3.2, |x, y| {
        if x * x + y * y > edge {
            return 0.0;
        }
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
    });
    field.standardize(radius)
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
    values: Vec<f32>,
}

impl Tile {
    /// A tile of these values.
    pub fn new(n: usize, pitch: f32, values: Vec<f32>) -> Self {
        debug_assert!(n.is_power_of_two() && values.len() == n * n);
        Self { n, per_mm: 1.0 / pitch, values }
    }

    /// The value at (x, y) mm, interpolated linearly.
    pub fn sample(&self, x: f32, y: f32) -> f32 {
        let (u, v) = (x * self.per_mm, y * self.per_mm);
        let (i, j) = (floor(u), floor(v));
        let (tx, ty) = (u - i as f32, v - j as f32);
        let mask = self.n - 1;
        let (i0, j0) = (i as usize & mask, j as usize & mask);
        let (i1, j1) = ((i0 + 1) & mask, (j0 + 1) & mask);
        let at = |i: usize, j: usize| self.values[j * self.n + i];
        let a = at(i0, j0) + (at(i1, j0) - at(i0, j0)) * tx;
        let b = at(i0, j1) + (at(i1, j1) - at(i0, j1)) * tx;
        a + (b - a) * ty
    }
}
