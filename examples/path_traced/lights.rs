//! What the piece stands in: the studio by day, the lantern within, or even light to check by.

use super::space::{Dome, V3};
use dappledome::base::scalar::sin_cos;
use dappledome::color::srgb::decode;
use dappledome::optics::colors::WHITE;
use dappledome::optics::surface::{INDEX, NORMAL, fresnel};
use dappledome::picture::studio::TABLE_DAY;
use rand::{Rng, RngExt};
use std::f64::consts::{PI, TAU};

/// A light far away, as a frame of directions with a soft edge. The same numbers as in `picture::studio`, written down
/// again so that the reference does not move with the renderer; a test holds them against each other.
#[derive(Debug)]
struct Frame {
    toward: V3,
    right: V3,
    up: V3,
    half: (f64, f64),
    soft: f64,
    strength: f64,
}

impl Frame {
    fn new(toward: (f64, f64, f64), half: (f64, f64), soft: f64, strength: f64) -> Self {
        let toward = V3::new(toward.0, toward.1, toward.2).unit();
        let right = V3::new(-toward.y, toward.x, 0.0).unit();
        let up = V3::new(
            toward.y * right.z - toward.z * right.y,
            toward.z * right.x - toward.x * right.z,
            toward.x * right.y - toward.y * right.x,
        );
        Self { toward, right, up, half, soft, strength }
    }

    fn seen(&self, d: V3) -> f64 {
        let depth = d.dot(self.toward);
        if depth <= 0.05 {
            return 0.0;
        }
        let inside = |x: f64, half: f64| {
            let t = ((half + self.soft - x) / (2.0 * self.soft)).clamp(0.0, 1.0);
            t * t * (3.0 - 2.0 * t)
        };
        let (a, b) = (d.dot(self.right).abs() / depth, d.dot(self.up).abs() / depth);
        self.strength * inside(a, self.half.0) * inside(b, self.half.1)
    }
}

/// Rows of height and columns of azimuth that directions are drawn from: all of them of the same solid angle.
const GRID: (usize, usize) = (96, 384);

/// The studio above the table, in the picture's linear light: a level perfect white glass shows [`WHITE`].
#[derive(Debug)]
pub struct Studio {
    frames: [Frame; 2],
    exposure: f64,
    /// Reflectance of the table: without a shadow it shows the page's own gray.
    pub table: f64,
    /// Chance of the cells up to each.
    chance: Vec<f64>,
}

impl Studio {
    /// The studio of `picture::studio`.
    pub fn new() -> Self {
        let frames = [
            Frame::new((-0.52, 0.14, 0.84), (0.30, 0.21), 0.05, 7.0),
            Frame::new((0.85, 0.15, 0.45), (0.10, 0.55), 0.04, 1.8),
        ];
        let mut studio = Self { frames, exposure: 1.0, table: 0.0, chance: Vec::new() };
        let cells = GRID.0 * GRID.1;
        let (mut white, mut level, mut sum) = (0.0, 0.0, 0.0);
        for cell in 0..cells {
            let (mut light, mut z) = (0.0, 0.0);
            for (u, v) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)] {
                let d = direction(cell, u, v);
                light += 0.25 * studio.seen(d);
                z += 0.25 * d.z;
            }
            let arrives = light * z * TAU / cells as f64 / PI;
            level += arrives;
            white += arrives * (1.0 - fresnel(INDEX, z)) / (1.0 - NORMAL);
            sum += light * (z + 0.1);
            studio.chance.push(sum);
        }
        for chance in &mut studio.chance {
            *chance /= sum;
        }
        studio.exposure = f64::from(WHITE) / white;
        studio.table = f64::from(decode(TABLE_DAY)[0]) / (level * studio.exposure);
        studio
    }

    /// Radiance from a direction above the horizon.
    pub fn seen(&self, d: V3) -> f64 {
        let lights: f64 = self.frames.iter().map(|frame| frame.seen(d)).sum();
        self.exposure * (0.16 + 0.42 * d.z + lights)
    }

    /// A direction by chance, the brighter the likelier.
    pub fn draw(&self, chance: &mut impl Rng) -> V3 {
        let u: f64 = chance.random();
        let cell = self.chance.partition_point(|c| *c < u).min(self.chance.len() - 1);
        direction(cell, chance.random(), chance.random())
    }

    /// How likely [`Self::draw`] is to give a direction, per unit of solid angle.
    pub fn likely(&self, d: V3) -> f64 {
        let around = dappledome::base::scalar::atan2(d.y, d.x).rem_euclid(TAU) / TAU;
        let row = ((d.z * GRID.0 as f64) as usize).min(GRID.0 - 1);
        let column = ((around * GRID.1 as f64) as usize).min(GRID.1 - 1);
        let cell = row * GRID.1 + column;
        let before = if cell == 0 { 0.0 } else { self.chance[cell - 1] };
        (self.chance[cell] - before) * (GRID.0 * GRID.1) as f64 / TAU
    }
}

/// A direction in a cell of the grid.
fn direction(cell: usize, u: f64, v: f64) -> V3 {
    let z = ((cell / GRID.1) as f64 + u) / GRID.0 as f64;
    let (sin, cos) = sin_cos(((cell % GRID.1) as f64 + v) / GRID.1 as f64 * TAU);
    let out = (1.0 - z * z).sqrt();
    V3::new(out * cos, out * sin, z)
}

/// The light around the piece.
#[derive(Debug)]
pub enum Room {
    /// The studio by day, over the table.
    Day(Box<Studio>),
    /// Nothing but the lantern, over a table of this reflectance, with a white plate on it up to this radius, mm.
    Dark(f64, f64),
    /// Even light from above and from below, and no table: to check by.
    Even(f64, f64),
}

/// A frosted cap over a bulb, the upper half of an ellipsoid of revolution. The same numbers as in `picture::lantern`.
#[derive(Clone, Copy, Debug)]
pub struct Lantern {
    half_width: f64,
    height: f64,
}

/// Reflectance of the lantern's glass (by eye).
pub const FROST: f64 = 0.8;
/// Reflectance of the white plate that it stands on.
pub const PLATE: f64 = 0.8;

impl Lantern {
    /// The lantern for a dome: 0.9 of the room's width and 0.66 of its height, and smaller if it would touch the glass.
    pub fn new(dome: &Dome) -> Self {
        let inside = |i: i32| dome.on_face(dome.flat * f64::from(i) / 24.0, -1.0).0;
        let (mut a, mut c) = (0.9 * inside(24).x, 0.66 * inside(0).z);
        let touches = |a: f64, c: f64| {
            (0..=24).map(inside).any(|p| (p.x / a) * (p.x / a) + (p.z / c) * (p.z / c) <= 1.15)
        };
        while touches(a, c) {
            (a, c) = (0.9 * a, 0.9 * c);
        }
        Self { half_width: a, height: c }
    }

    /// Where a ray meets it, the normal there, and its radiance toward where the ray came from: seen straight on, halfway
    /// out, about 0.9.
    pub fn met(&self, from: V3, toward: V3) -> Option<(f64, V3, f64)> {
        let squash = |v: V3| V3::new(v.x / self.half_width, v.y / self.half_width, v.z / self.height);
        let (o, d) = (squash(from), squash(toward));
        let (dd, od) = (d.dot(d), o.dot(d));
        let root = od * od - dd * (o.dot(o) - 1.0);
        if root <= 0.0 || od >= 0.0 {
            return None;
        }
        let t = (-od - root.sqrt()) / dd;
        let hit = o + d * t;
        if t <= 0.0 || hit.z < 0.0 {
            return None;
        }
        let normal = squash(hit).unit();
        let near = 1.0 - hit.x * hit.x - hit.y * hit.y;
        let frosted = 0.3 - 0.7 * toward.dot(normal);
        Some((t, normal, frosted * (0.72 + 0.40 * near * near)))
    }
}
