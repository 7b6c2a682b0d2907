//! The face of a natural sponge: pores of three sizes between fibrous walls, on a square that repeats.
//! It is the maker's one sponge, so it depends on its pores only, not on the seed of a piece.

use super::field::{hash, hashed_normal};
use crate::base::scalar::{PI, exp, exp2, floor, lerp, sin_cos, smoothstep};
use crate::base::seed::{Purpose, Seed};
use rand::{Rng, RngExt};

/// Side of the face, mm. It is sampled turned and shifted, so the repeat does not show.
pub const SIDE: f32 = 96.0;
/// Points along a side: one every quarter of a millimeter.
const POINTS: usize = 384;
const PER_MM: f32 = POINTS as f32 / SIDE;

/// Pores per cm², their radius in mm and the spread of its logarithm, for a sponge whose widest pores are 5.2 mm.
/// No source gives pore sizes of natural sponges: chosen by eye.
const PORES: [(f32, f32, f32); 3] = [(0.8, 2.6, 0.35), (7.0, 1.0, 0.35), (40.0, 0.42, 0.4)];
const WIDEST: f32 = 5.2;
/// Spread of the logarithm of a pore's width to its length.
const ELONGATION: f32 = 0.25;

/// What the face is like at one point.
#[derive(Clone, Copy, Debug, Default)]
pub struct Texel {
    /// Least distance to a pore's middle, in pore radii: below about 1 there is a hole.
    pub wall: f32,
    /// Height of the lumps the hand presses against, standard deviation 1.
    pub lump: f32,
    /// How much one touch lifts here, relative to the median.
    pub lift: f32,
}

/// The face of a sponge.
#[derive(Clone, Debug)]
pub struct SpongeFace {
    texels: Vec<Texel>,
}

impl SpongeFace {
    /// The face of a sponge whose widest pores are `widest` mm across.
    pub fn new(widest: f32) -> Self {
        let mut rng = Seed(0).stream(Purpose::Pores);
        let mut wall = vec![4.0f32; POINTS * POINTS];
        let scale = widest / WIDEST;
        for (per_cm2, radius, spread) in PORES {
            // Scaling the pores keeps the share of the face they take.
            let count = per_cm2 * SIDE * SIDE / 100.0 / (scale * scale);
            for _ in 0..count as usize {
                let pore = Pore::random(&mut rng, radius * scale, spread);
                pore.carve(&mut wall);
            }
        }
        let (fibers, lumps, wetness) = (Grainy::new(80, 11), Grainy::new(9, 12), Grainy::new(44, 13));
        let texels = (0..POINTS * POINTS)
            .map(|k| {
                let (u, v) = ((k % POINTS) as f32 / POINTS as f32, (k / POINTS) as f32 / POINTS as f32);
                Texel {
                    wall: wall[k] + 0.12 * fibers.at(u, v),
                    lump: lumps.at(u, v),
                    lift: exp2(0.5 * std::f32::consts::LOG2_E * wetness.at(u, v)),
                }
            })
            .collect();
        Self { texels }
    }

    /// The face at (x, y) mm; it repeats every [`SIDE`].
    pub fn at(&self, x: f32, y: f32) -> Texel {
        // Positions stay within a few sides of the origin, so the shift keeps them positive.
        let i = ((x + 8.0 * SIDE) * PER_MM) as usize % POINTS;
        let j = ((y + 8.0 * SIDE) * PER_MM) as usize % POINTS;
        self.texels[j * POINTS + i]
    }
}

/// Smooth random numbers on a square that repeats, about `cells` features to a side.
struct Grainy {
    cells: i32,
    key: u32,
}

impl Grainy {
    fn new(cells: i32, key: u32) -> Self {
        Self { cells, key }
    }

    /// The value at (u, v), each 0 to 1: standard normal hashes, blended smoothly. The factor makes up for the
    /// blending, which averages: its mean square weight is (26/35)².
    fn at(&self, u: f32, v: f32) -> f32 {
        let (x, y) = (u * self.cells as f32, v * self.cells as f32);
        let (i, j) = (floor(x), floor(y));
        let (tx, ty) = (smoothstep(0.0, 1.0, x - i as f32), smoothstep(0.0, 1.0, y - j as f32));
        let at = |i: i32, j: i32| hashed_normal(hash(i % self.cells, j % self.cells, self.key));
        let lower = lerp(at(i, j), at(i + 1, j), tx);
        let upper = lerp(at(i, j + 1), at(i + 1, j + 1), tx);
        lerp(lower, upper, ty) * (35.0 / 26.0)
    }
}

struct Pore {
    x: f32,
    y: f32,
    cos: f32,
    sin: f32,
    long: f32,
    short: f32,
}

impl Pore {
    fn random(rng: &mut impl Rng, radius: f32, spread: f32) -> Self {
        let (x, y) = (rng.random::<f32>() * SIDE, rng.random::<f32>() * SIDE);
        let normal = |rng: &mut dyn Rng| hashed_normal(rng.next_u32());
        let radius = radius * exp(f64::from(spread * normal(rng))) as f32;
        let stretch = exp(f64::from(ELONGATION * normal(rng))) as f32;
        let (sin, cos) = sin_cos(f64::from(PI * rng.random::<f32>()));
        Self { x, y, cos: cos as f32, sin: sin as f32, long: radius * stretch, short: radius / stretch }
    }

    /// Lowers the map to the distance from this pore's middle, in its own radii, out to two of them.
    fn carve(&self, wall: &mut [f32]) {
        let reach = 2.0 * self.long.max(self.short);
        let steps = (reach * PER_MM) as i32 + 1;
        let (ci, cj) = (floor(self.x * PER_MM), floor(self.y * PER_MM));
        for dj in -steps..=steps {
            for di in -steps..=steps {
                let dx = (ci + di) as f32 / PER_MM - self.x;
                let dy = (cj + dj) as f32 / PER_MM - self.y;
                let along = (self.cos * dx + self.sin * dy) / self.long;
                let across = (self.cos * dy - self.sin * dx) / self.short;
                let i = (ci + di).rem_euclid(POINTS as i32) as usize;
                let j = (cj + dj).rem_euclid(POINTS as i32) as usize;
                let value = &mut wall[j * POINTS + i];
                let distance = (along * along + across * across).sqrt();
                if distance < *value {
                    *value = distance;
                }
            }
        }
    }
}
