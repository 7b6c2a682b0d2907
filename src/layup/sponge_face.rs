//! The face of a natural sponge: pores of three sizes between fibrous walls, on a square that repeats.
//! It is the maker's one sponge, so it depends on its pores only, not on the seed of a piece.

use super::field::{hash, hashed_normal, spline};
use crate::base::lanes::{Four, LANES, Number, wrapped_places};
use crate::base::scalar::{Bounds, PI, exp, exp2, floor, sin_cos};
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

/// What the face is like at one point: the least distance to a pore's middle, in pore radii, below about 1 of which there is a hole; the
/// height of the lumps the hand presses against, standard deviation 1; how much one touch lifts here, relative to the median; and nothing.
pub type Texel = [f32; LANES];

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
        let (fibers, lumps, wetness) = (Grainy::new(78, 11), Grainy::new(9, 12), Grainy::new(43, 13));
        let share = |point: usize| point as f32 / POINTS as f32;
        let mut texels = Vec::with_capacity(POINTS * POINTS);
        for (row, wall) in wall.chunks_exact(POINTS).enumerate() {
            let [fibers, lumps, wetness] = [&fibers, &lumps, &wetness].map(|grainy| grainy.line(share(row)));
            texels.extend(wall.iter().enumerate().map(|(column, wall)| {
                let u = share(column);
                let lift = exp2(0.5 * std::f32::consts::LOG2_E * along(&wetness, u));
                [wall.sqrt() + 0.12 * along(&fibers, u), along(&lumps, u), lift, 0.0]
            }));
        }
        Self { texels }
    }

    /// A face that is the same everywhere.
    #[cfg(test)]
    pub(super) fn alike(texel: Texel) -> Self {
        Self { texels: vec![texel; POINTS * POINTS] }
    }

    /// The face at four places (x, y) in mm: walls, lumps and lifts. It repeats every [`SIDE`].
    #[inline]
    pub fn at(&self, (x, y): (Four, Four)) -> [Four; 3] {
        let point = |x: Four| (x * PER_MM).floor_of();
        let texels = wrapped_places(point(x), point(y), POINTS).map(|at| Four::new(self.texels[at]));
        let [wall, lump, lift, _] = Four::transpose(texels);
        [wall, lump, lift]
    }
}

/// Smooth random numbers on a square that repeats: a spline over standard normal numbers, `knots` of them to a side. Its
/// slopes are the same in all directions; those of a blend from corner to corner are not.
struct Grainy {
    knots: usize,
    values: Vec<f32>,
}

impl Grainy {
    /// The mean square of the spline's weights at a place is (151/315)², of which this is the inverse root: the numbers keep
    /// their deviation.
    const EVEN: f32 = 315.0 / 151.0;

    fn new(knots: usize, key: u32) -> Self {
        let normal = |k: usize| hashed_normal(hash((k % knots) as i32, (k / knots) as i32, key));
        Self { knots, values: (0..knots * knots).map(normal).collect() }
    }

    /// The knots along a line at `v`, 0 up to 1: the spline across them done.
    fn line(&self, v: f32) -> Vec<f32> {
        let (j, weights) = place(v, self.knots);
        let row = |l: usize| &self.values[(j + l) % self.knots * self.knots..][..self.knots];
        let rows: [&[f32]; 4] = std::array::from_fn(row);
        (0..self.knots).map(|i| (0..4).map(|l| weights[l] * rows[l][i]).sum::<f32>() * Self::EVEN).collect()
    }
}

/// The first of four knots about a place, 0 up to 1, and their weights.
#[inline]
fn place(u: f32, knots: usize) -> (usize, [f32; 4]) {
    let x = u * knots as f32;
    let i = x as usize;
    (i, spline(x - i as f32))
}

/// The value at a place along a line of knots, 0 up to 1.
#[inline]
fn along(line: &[f32], u: f32) -> f32 {
    let (i, weights) = place(u, line.len());
    (0..4).map(|k| weights[k] * line[(i + k) % line.len()]).sum()
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Structure function of the slope, over many sponges: as much along the axes as along the diagonals.
    #[test]
    fn lumps_and_fibers_have_no_axes() {
        for step in [0.25, 0.5, 1.0] {
            let (mut axes, mut diagonals) = (0.0, 0.0);
            for key in 0..400 {
                let field = Grainy::new(12, key);
                let at = |x: f32, y: f32| along(&field.line(y / 12.0), x / 12.0);
                let second = |x: f32, y: f32, (dx, dy): (f32, f32)| {
                    let second = f64::from(at(x + dx, y + dy) - 2.0 * at(x, y) + at(x - dx, y - dy));
                    second * second
                };
                let slant = step * std::f32::consts::FRAC_1_SQRT_2;
                for k in 0..600 {
                    let place = |step: f32| 1.0 + 10.0 * (0.5 + k as f32 * step).fract();
                    let (x, y) = (place(0.754_877_7), place(0.569_840_3));
                    axes += second(x, y, (step, 0.0)) + second(x, y, (0.0, step));
                    diagonals += second(x, y, (slant, slant)) + second(x, y, (slant, -slant));
                }
            }
            println!("{step} of a knot: axes against diagonals {:+.3}", axes / diagonals - 1.0);
            assert!((axes / diagonals - 1.0).abs() < 0.05, "{step}: {}", axes / diagonals);
        }
    }

    #[test]
    fn lumps_and_fibers_have_deviation_one() {
        let squares = |key: u32| {
            let field = Grainy::new(9, key);
            (0..900)
                .map(|k| along(&field.line((k / 30) as f32 / 30.0), (k % 30) as f32 / 30.0))
                .map(|v| v * v)
                .sum::<f32>()
        };
        let mean = (0..300).map(squares).sum::<f32>() / (300.0 * 900.0);
        assert!((mean - 1.0).abs() < 0.04, "{mean}");
    }
}
