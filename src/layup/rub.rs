//! Rubbing powder off with the corner of a damp sponge: along its path all of it goes, down to the glass, with an edge
//! that is a little soft and a little ragged. Nothing is lost: on the glass + rubbed off = what lay there.

use super::field::{Lattice, Tile, hash, hashed_normal};
use super::powder_bed::PowderBed;
use crate::base::disc::Disc;
use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, smoothstep};
use crate::recipe::{Place, Rub};
use std::sync::Arc;

/// Distance of the points on which the bared lines are drawn, mm.
const PITCH: f32 = 0.5;
/// Width over which the edge fades out, mm.
const SOFT: f32 = 1.0;
/// How far the edge wanders, standard deviation, mm, and how wide its turns are, mm. By eye.
const RAGGED: (f32, f32) = (0.3, 1.5);
/// How far out from its width a rub is followed, mm: beyond it every place keeps its powder.
const MARGIN: f32 = 0.5 * SOFT + 4.0 * RAGGED.0;

/// The bed with the powder along these rubs gone.
pub fn rub(bed: &PowderBed, rubs: &[Rub]) -> PowderBed {
    let bared = Bared::new(bed.grid.disc(), rubs);
    let mut after = bed.clone();
    let area = f64::from(bed.grid.cell_area());
    let mut kept = vec![1.0; bed.grid.len()];
    bed.grid.tabulate(&mut kept, |x, y| bared.kept(x, y));
    let mut rubbed_off = vec![0.0; bed.coats.len()];
    for planes in [&mut after.coats, &mut after.put_back] {
        for (plane, off) in planes.iter_mut().zip(&mut rubbed_off) {
            for (cell, kept) in Arc::make_mut(plane).iter_mut().zip(&kept).filter(|(_, kept)| **kept < 1.0) {
                let left = *cell * kept;
                *off += f64::from(*cell - left) * area;
                *cell = left;
            }
        }
    }
    after.rubbed_off = rubbed_off;
    after
}

/// How far each place lies from the edges of the rubs, mm: negative where powder goes.
struct Bared {
    from_edge: Lattice,
    ragged: Tile,
}

impl Bared {
    fn new(disc: Disc, rubs: &[Rub]) -> Self {
        let mut drawn = Drawn::new(disc.radius());
        for rub in rubs {
            let half = 0.5 * rub.width.f32();
            let single = rub.path.len() == 1;
            for pair in rub.path.windows(if single { 1 } else { 2 }) {
                drawn.stretch(pair[0], pair[pair.len() - 1], half);
            }
        }
        let side = drawn.side;
        let half = (side / 2) as f32;
        let from_edge = Lattice::new(disc.radius(), PITCH, |x, y| {
            // The lattice's points are the drawn ones.
            let index = |mm: f32| (mm / PITCH + half + 0.5) as usize;
            [drawn.from_edge[index(y).min(side - 1) * side + index(x).min(side - 1)]]
        });
        const POINTS: usize = 128;
        let luck = |at: usize| hashed_normal(hash((at % POINTS) as i32, (at / POINTS) as i32, 31));
        let ragged = Tile::new(POINTS, RAGGED.1, &(0..POINTS * POINTS).map(luck).collect::<Vec<f32>>());
        Self { from_edge, ragged }
    }

    /// The share of the powder that stays at four places on the disc.
    #[inline]
    fn kept(&self, x: Four, y: Four) -> Four {
        let (from_edge, all) = (self.from_edge.sample(x, y), Four::of(1.0));
        if !(-from_edge).any_above(-MARGIN) {
            return all;
        }
        let ragged = self.ragged.sample_even(x, y) * RAGGED.0;
        let kept = smoothstep(-0.5 * SOFT, 0.5 * SOFT, from_edge + ragged);
        Four::of(MARGIN).above(from_edge, kept, all)
    }
}

/// The distances on a square of points about the disc's middle.
struct Drawn {
    side: usize,
    from_edge: Vec<f32>,
}

impl Drawn {
    fn new(radius: f32) -> Self {
        let side = 2 * ((radius / PITCH) as usize + 2) + 1;
        Self { side, from_edge: vec![MARGIN; side * side] }
    }

    /// Lowers the distances around one stretch of a path, row by row, only as far as it reaches.
    fn stretch(&mut self, a: Place, b: Place, half: f32) {
        let middle = (self.side / 2) as f32;
        let point = |at: Place| (at[0] as f32 / PITCH + middle, at[1] as f32 / PITCH + middle);
        let ((ax, ay), (bx, by)) = (point(a), point(b));
        let reach = (half + MARGIN) / PITCH;
        let (dx, dy) = (bx - ax, by - ay);
        let long = dx * dx + dy * dy;
        let per_long = if long > 0.0 { 1.0 / long } else { 0.0 };
        for row in span(ay.at_most(by) - reach, ay.at_least(by) + reach, self.side) {
            let y = row as f32;
            // The part of the stretch that reaches this row bounds its columns.
            let (low, high) = if dy.abs() > 1e-3 {
                let (s, t) = ((y - reach - ay) / dy, (y + reach - ay) / dy);
                let (s, t) = (s.at_most(t).clamp(0.0, 1.0), s.at_least(t).clamp(0.0, 1.0));
                (ax + dx * s, ax + dx * t)
            } else {
                (ax, bx)
            };
            for column in span(low.at_most(high) - reach, low.at_least(high) + reach, self.side) {
                let (x, y) = (column as f32 - ax, y - ay);
                let along = ((x * dx + y * dy) * per_long).clamp(0.0, 1.0);
                let (x, y) = (x - along * dx, y - along * dy);
                let from_edge = (x * x + y * y).sqrt() * PITCH - half;
                let now = &mut self.from_edge[row * self.side + column];
                *now = from_edge.at_most(*now);
            }
        }
    }
}

/// The points from one to another position that there are.
fn span(from: f32, to: f32, side: usize) -> std::ops::Range<usize> {
    let end = (to + 1.0).at_least(0.0) as usize;
    (from.at_least(0.0) as usize).min(side)..end.min(side)
}
