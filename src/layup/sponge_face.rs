//! The face of a natural sponge: pores of three sizes between fibrous walls, on a square that repeats.
//! It is the maker's one sponge, so it depends on its pores only, not on the seed of a piece.

use super::field::{hash, hashed_normal};
use crate::base::scalar::{Bounds, PI, exp, exp2, floor, lerp, sin_cos};
use crate::base::seed::{Purpose, Seed};
use rand::{Rng, RngExt};

/// Side of the face, mm. It is sampled turned and shifted, so the repeat does not show.
pub const SIDE: f32 = 64.0;
/// Points along a side: one every quarter of a millimeter.
const POINTS: usize = 256;
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
        let mut wall = vec![16.0f32; POINTS * POINTS];
        let scale = widest / WIDEST;
        for (per_cm2, radius, spread) in PORES {
            // Scaling the pores keeps the share of the face they take.
            let count = per_cm2 * SIDE * SIDE / 100.0 / (scale * scale);
            for _ in 0..count as usize {
                let pore = Pore::random(&mut rng, radius * scale, spread);
                pore.carve(&mut wall);
            }
        }
        let (fibers, lumps, wetness) = (Grainy::new(53, 11), Grainy::new(6, 12), Grainy::new(29, 13));
        let texels = (0..POINTS * POINTS)
            .map(|k| {
                let (u, v) = ((k % POINTS) as f32 / POINTS as f32, (k / POINTS) as f32 / POINTS as f32);
                Texel {
                    wall: wall[k].sqrt() + 0.12 * fibers.at(u, v),
                    lump: lumps.at(u, v),
                    lift: exp2(0.5 * std::f32::consts::LOG2_E * wetness.at(u, v)),
                }
            })
            .collect();
        Self { texels }
    }

    /// The face at (x, y) mm; it repeats every [`SIDE`].
    #[inline]
    pub fn at(&self, x: f32, y: f32) -> Texel {
        // Positions stay within a few sides of the origin, so the shift keeps them positive.
        let index = |x: f32| ((x + 16.0 * SIDE) * PER_MM) as usize & (POINTS - 1);
        let (i, j) = (index(x), index(y));
        self.texels[j * POINTS + i]
    }
}

/// Smooth random numbers on a square that repeats, `cells` features to a side.
struct Grainy {
    cells: usize,
    values: Vec<f32>,
}

impl Grainy {
    fn new(cells: usize, key: u32) -> Self {
        let normal = |k: usize| hashed_normal(hash((k % cells) as i32, (k / cells) as i32, key));
        Self { cells, values: (0..cells * cells).map(normal).collect() }
    }

    /// The value at (u, v), each 0 up to 1: standard normal numbers, blended smoothly. The factor makes up for the
    /// blending, which averages: its mean square weight is (26/35)².
    #[inline]
    fn at(&self, u: f32, v: f32) -> f32 {
        let place = |u: f32| {
            let x = u * self.cells as f32;
            let i = x as usize;
            let t = x - i as f32;
            (i % self.cells, (i + 1) % self.cells, t * t * (3.0 - 2.0 * t))
        };
        let ((i0, i1, tx), (j0, j1, ty)) = (place(u), place(v));
        let at = |i: usize, j: usize| self.values[j * self.cells + i];
        let row = |j: usize| lerp(at(i0, j), at(i1, j), tx);
        lerp(row(j0), row(j1), ty) * (35.0 / 26.0)
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

    /// Lowers the map to the squared distance from this pore's middle, in its own radii, out to two of them.
    fn carve(&self, wall: &mut [f32]) {
        let reach = 2.0 * self.long.at_least(self.short);
        let steps = (reach * PER_MM) as i32 + 1;
        let (ci, cj) = (floor(self.x * PER_MM), floor(self.y * PER_MM));
        for dj in -steps..=steps {
            let dy = (cj + dj) as f32 / PER_MM - self.y;
            let row = wrapped(cj + dj) * POINTS;
            for di in -steps..=steps {
                let dx = (ci + di) as f32 / PER_MM - self.x;
                let along = (self.cos * dx + self.sin * dy) / self.long;
                let across = (self.cos * dy - self.sin * dx) / self.short;
                let square = along * along + across * across;
                let value = &mut wall[row + wrapped(ci + di)];
                if square < *value {
                    *value = square;
                }
            }
        }
    }
}

/// A point of the face that repeats; pores reach less than one side beyond it.
fn wrapped(i: i32) -> usize {
    let side = POINTS as i32;
    (if i < 0 {
        i + side
    } else if i >= side {
        i - side
    } else {
        i
    }) as usize
}
