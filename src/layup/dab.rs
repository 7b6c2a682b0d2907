//! Dabbing: a damp sponge rolled and lifted over the dry powder. It lifts from the top of the column where its
//! walls touch, puts some of what it carries back, and is brushed between rolls. Nothing is smeared and nothing
//! is lost: on the glass + on the sponge + brushed away = sifted, powder by powder.

use super::powder_bed::{PowderBed, SpongeAccount};
use super::sponge_face::{SIDE, SpongeFace};
use crate::base::disc::Disc;
use crate::base::grid::Grid;
use crate::base::lanes::{self, Four, LANES, Number, counted, store, wrapped_places};
use crate::base::scalar::{Bounds, PI, pow, sin_cos, smoothstep};
use crate::base::seed::{Purpose, Seed};
use crate::recipe::Sponge;
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use std::ops::Range;
use std::sync::Arc;

/// Cells of the load on the face along a side: 2 mm each, coarser than any cell of the disc, or a draft would put
/// back less than a fine picture.
const LOAD_CELLS: usize = 32;
const LOAD_CELL: f32 = SIDE / LOAD_CELLS as f32;
/// The most loose powder the face holds, mm. No source: chosen with the lift.
const LOAD_LIMIT: f32 = 0.27;
/// Finest spacing at which the face is sampled in a draft, mm; smaller than the middling pores.
const SAMPLE: f32 = 0.42;
/// A roll's step from press to press, in footprint radii.
const STEP: f32 = 0.8;
/// How much of a step the face itself moves on: a sponge rolled rigidly would never meet its own load again.
const FACE_ADVANCE: f32 = 0.35;
/// What is left of the lift after one more roll without a dip. No source.
const DRYING: f64 = 0.99;

/// Dabs a sifted bed.
pub fn dab(bed: PowderBed, sponge: &Sponge, face: &SpongeFace, seed: Seed) -> PowderBed {
    let disc = bed.grid.disc();
    let mut work = Dabbing::new(bed, sponge, face);
    let mut rng = seed.stream(Purpose::Sponge);
    let rolls = rolls(sponge, disc);
    let mut starts: Vec<(f32, f32)> = Vec::new();
    for roll in 0..rolls {
        let start = farthest_candidate(&mut rng, disc, &starts);
        starts.push(start);
        work.roll(&mut rng, roll, start, lift_of(sponge, roll));
        if roll + 1 < rolls {
            work.brush();
        }
    }
    work.finish(rolls)
}

/// What one touch of a roll lifts, mm: less with every roll since the sponge was last dipped.
fn lift_of(sponge: &Sponge, roll: u32) -> f32 {
    let since_wet = sponge.rewet_every.map_or(roll, |every| roll % every.max(1));
    sponge.lift.f32() * pow(DRYING, since_wet.into()) as f32
}

/// How many rolls cover the disc as often as asked: a roll sweeps its foot and, with each press, a strip ahead of it.
pub fn rolls(sponge: &Sponge, disc: Disc) -> u32 {
    let (from, to) = (sponge.roll_from.f32() / 2.0, sponge.roll_to.f32() / 2.0);
    let square = (from * from + from * to + to * to) / 3.0;
    let presses = (1.0 + sponge.presses as f32) / 2.0;
    let swept = square * (PI + 2.0 * STEP * STRIP * presses);
    (sponge.passes as f32 * disc.area() / swept + 0.5) as u32
}

/// The new part of a press's strip: with it two passes over a 160 mm disc are 28 rolls.
const STRIP: f32 = 0.65;

/// Of a few random starts over the disc and a little beyond, the one farthest from all before it.
fn farthest_candidate(rng: &mut ChaCha8Rng, disc: Disc, starts: &[(f32, f32)]) -> (f32, f32) {
    let reach = disc.radius() + 4.0;
    let mut best = (0.0, 0.0);
    let mut best_distance = -1.0;
    for _ in 0..12 {
        let r = reach * rng.random::<f32>().sqrt();
        let (sin, cos) = sin_cos(f64::from(2.0 * PI * rng.random::<f32>()));
        let (x, y) = (r * cos as f32, r * sin as f32);
        let nearest = starts
            .iter()
            .map(|(sx, sy)| (x - sx) * (x - sx) + (y - sy) * (y - sy))
            .fold(f32::INFINITY, f32::at_most);
        if nearest > best_distance {
            (best, best_distance) = ((x, y), nearest);
        }
    }
    best
}

/// One press: where its foot is, how wide, and how the face lies under it.
struct Press {
    x: f32,
    y: f32,
    radius: f32,
    cos: f32,
    sin: f32,
    face_x: f32,
    face_y: f32,
    lift: f32,
}

impl Press {
    /// From places relative to the foot's middle to the places on the face.
    #[inline]
    fn to_face<N: Number>(&self, dx: N, dy: N) -> (N, N) {
        (dx * self.cos + dy * self.sin + self.face_x, dy * self.cos - dx * self.sin + self.face_y)
    }
}

/// Four cells next to each other in a row, under a press.
struct Cells {
    row: usize,
    column: usize,
    /// Where they lie on the face, mm.
    on_face: (Four, Four),
    /// How much of each the face touches.
    contact: Four,
    /// How much it can lift from each in all, mm.
    lift: Four,
}

struct Dabbing<'a> {
    sponge: &'a Sponge,
    face: &'a SpongeFace,
    grid: Grid,
    coats: Vec<Vec<f32>>,
    put_back: Vec<Vec<f32>>,
    /// Loose powder on each load cell, coat by coat, mm averaged over the cell.
    load: Vec<f32>,
    /// The whole load of each cell when the press began, mm.
    carried: Vec<f32>,
    brushed: Vec<f64>,
    /// What four cells give the load, coat by coat, mm averaged over a load cell.
    given: Vec<Four>,
}

impl<'a> Dabbing<'a> {
    fn new(bed: PowderBed, sponge: &'a Sponge, face: &'a SpongeFace) -> Self {
        let (grid, coats) = (bed.grid, bed.coats.len());
        Self {
            sponge,
            face,
            grid,
            // What is remembered as sifted stays as it is.
            coats: bed.coats.into_iter().map(Arc::unwrap_or_clone).collect(),
            put_back: vec![vec![0.0; grid.len()]; coats],
            load: vec![0.0; LOAD_CELLS * LOAD_CELLS * coats],
            carried: vec![0.0; LOAD_CELLS * LOAD_CELLS],
            brushed: vec![0.0; coats],
            given: vec![Four::splat(0.0); coats],
        }
    }

    fn roll(&mut self, rng: &mut ChaCha8Rng, roll: u32, start: (f32, f32), lift: f32) {
        let turn = |angle: f64| {
            let (sin, cos) = sin_cos(angle);
            (sin as f32, cos as f32)
        };
        let (from, to) = (self.sponge.roll_from.f32() / 2.0, self.sponge.roll_to.f32() / 2.0);
        let radius = from + (to - from) * rng.random::<f32>();
        let (dy, dx) = turn(f64::from(2.0 * PI * rng.random::<f32>()));
        let (sin, cos) = turn((self.sponge.twist.0 * f64::from(roll)).to_radians());
        let presses = rng.random_range(1..=self.sponge.presses);
        let (mut face_x, mut face_y) = (30.0 * rng.random::<f32>(), 30.0 * rng.random::<f32>());
        let (mut x, mut y) = start;
        for _ in 0..presses {
            self.press(&Press { x, y, radius, cos, sin, face_x, face_y, lift });
            let step = STEP * radius;
            (x, y) = (x + dx * step, y + dy * step);
            (face_x, face_y) = (face_x + FACE_ADVANCE * step * dx, face_y + FACE_ADVANCE * step * dy);
        }
    }

    fn press(&mut self, press: &Press) {
        let coats = self.coats.len();
        for (carried, load) in self.carried.iter_mut().zip(self.load.chunks_exact(coats.max(1))) {
            *carried = load.iter().sum();
        }
        let (grid, cell) = (self.grid, self.grid.cell());
        let samples = (cell / SAMPLE) as usize + 1;
        let disc = grid.disc().radius();
        let to_index = |mm: f32| (mm / cell).clamp(0.0, grid.n() as f32) as usize;
        let rows = to_index(disc - press.y - press.radius)..to_index(disc - press.y + press.radius + cell);
        let mut touched: Vec<Cells> = Vec::with_capacity(grid.n() / LANES + 1);
        for row in rows {
            let dy = grid.y(row) - press.y;
            let half = (press.radius * press.radius - dy * dy).at_least(0.0).sqrt() + cell;
            let span = grid.span(row);
            let first = to_index(disc + press.x - half).max(span.start);
            let last = to_index(disc + press.x + half).min(span.end);
            // First the face along the whole row, which asks nothing of the powder and so runs ahead, then the powder.
            touched.clear();
            for column in (first..last).step_by(LANES) {
                let cells = self.under(press, (row, column), last, samples);
                if cells.contact.any_above(0.0) {
                    touched.push(cells);
                }
            }
            touched.iter().for_each(|cells| self.touch(cells));
        }
    }

    /// How much of four cells the face touches, and how much it can lift there: means over a few samples of each. Nothing from column
    /// `last` on.
    #[inline]
    fn under(&self, press: &Press, (row, column): (usize, usize), last: usize, samples: usize) -> Cells {
        let (cell, none) = (self.grid.cell(), Four::of(0.0));
        let (dx, dy) = (self.grid.four_x(column) - press.x, Four::of(self.grid.y(row) - press.y));
        let (mut contact, mut lift) = (none, none);
        let per_radius2 = 1.0 / (press.radius * press.radius);
        let off = |i: usize| cell * ((i as f32 + 0.5) / samples as f32 - 0.5);
        for j in 0..samples {
            let y = dy + off(j);
            for i in 0..samples {
                let x = dx + off(i);
                let bowl = (x * x + y * y) * -per_radius2 + 1.0;
                let [wall, lump, lifts] = self.face.at(press.to_face(x, y));
                let pressure2 = (bowl + lump * 0.3).at_least(none);
                let closing = pressure2.root() * -self.sponge.press as f32 + 1.25;
                let firm = (pressure2 * 4.0).at_most(Four::of(1.0));
                let touch = smoothstep(-0.18, 0.18, wall - closing) * firm;
                contact += touch;
                lift += touch * lifts;
            }
        }
        let each = 1.0 / (samples * samples) as f32;
        let here = |x: Four| Four::of(last as f32).above(counted(column as f32), x * each, none);
        let (contact, lift) = (here(contact), here(lift) * press.lift);
        Cells { row, column, on_face: press.to_face(dx, dy), contact, lift }
    }

    /// Puts some of the load back on four cells, then lifts from the tops of their columns. All four meet the load as it was before.
    fn touch(&mut self, cells: &Cells) {
        let (coats, n, none) = (self.coats.len(), self.grid.n(), Four::of(0.0));
        let at = load_cells(cells.on_face);
        let carried = Four::new(at.map(|at| self.carried[at]));
        let per_load_cell = self.grid.cell_area() / (LOAD_CELL * LOAD_CELL);
        let here = cells.row * n + cells.column..(cells.row + 1) * n;
        self.given.fill(none);
        if carried.any_above(1e-5) {
            let share = carried.above(Four::of(1e-5), cells.contact, none) * self.sponge.puts_back as f32;
            for (coat, plane) in self.put_back.iter_mut().enumerate() {
                let load = Four::new(at.map(|at| self.load[at * coats + coat]));
                // Never more than is there, were all four on one load cell.
                let back = (share * load).at_most(load / (LANES as f32 * per_load_cell));
                let column = &mut plane[here.clone()];
                store(column, lanes::load(column) + back);
                self.given[coat] = -back;
            }
        }
        let want = cells.lift * (carried / -LOAD_LIMIT + 1.0).at_least(none);
        if want.any_above(0.0) {
            let mut want = want - take_mixture(&mut self.put_back, here.clone(), want, &mut self.given);
            for (coat, plane) in self.coats.iter_mut().enumerate().rev() {
                want = want.at_least(none);
                if !want.any_above(0.0) {
                    break;
                }
                let column = &mut plane[here.clone()];
                let there = lanes::load(column);
                let taken = want.at_most(there);
                store(column, there - taken);
                self.given[coat] += taken;
                want -= taken;
            }
        }
        for (coat, given) in self.given.iter().enumerate() {
            for (at, given) in at.into_iter().zip((*given * per_load_cell).to_array()) {
                self.load[at * coats + coat] += given;
            }
        }
    }

    fn brush(&mut self) {
        let coats = self.coats.len().max(1);
        let off = 1.0 - self.sponge.stays_on as f32;
        for load in self.load.chunks_exact_mut(coats) {
            for (load, brushed) in load.iter_mut().zip(&mut self.brushed) {
                *brushed += f64::from(*load * off) * f64::from(LOAD_CELL * LOAD_CELL);
                *load -= *load * off;
            }
        }
    }

    fn finish(self, rolls: u32) -> PowderBed {
        let coats = self.coats.len();
        let mut on_sponge = vec![0.0; coats];
        for load in self.load.chunks_exact(coats.max(1)) {
            for (sum, load) in on_sponge.iter_mut().zip(load) {
                *sum += f64::from(*load) * f64::from(LOAD_CELL * LOAD_CELL);
            }
        }
        let sponge = SpongeAccount { rolls, on_sponge, brushed: self.brushed };
        PowderBed {
            grid: self.grid,
            coats: self.coats.into_iter().map(Arc::new).collect(),
            put_back: self.put_back.into_iter().map(Arc::new).collect(),
            sponge,
            rubbed_off: Vec::new(),
        }
    }
}

/// Lifts up to `want` mm from the mixture on top of four columns, in proportion; returns how much.
fn take_mixture(planes: &mut [Vec<f32>], here: Range<usize>, want: Four, given: &mut [Four]) -> Four {
    let none = Four::of(0.0);
    let there = planes.iter().fold(none, |sum, plane| sum + lanes::load(&plane[here.clone()]));
    if !there.any_above(0.0) {
        return none;
    }
    let share = there.above(none, (want / there).at_most(Four::of(1.0)), none);
    for (plane, given) in planes.iter_mut().zip(given) {
        let column = &mut plane[here.clone()];
        let mixed = lanes::load(column);
        let taken = mixed * share;
        store(column, mixed - taken);
        *given += taken;
    }
    there * share
}

/// The load cells of four places on the face, mm.
fn load_cells((x, y): (Four, Four)) -> [usize; LANES] {
    wrapped_places((x / LOAD_CELL).floor_of(), (y / LOAD_CELL).floor_of(), LOAD_CELLS)
}

/// Dabs counted by hand: a face without pores or lumps on a small even bed.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;

    /// A press of 20 mm on the middle of the disc, by a face that touches everywhere.
    fn press(lift: f32) -> Press {
        Press { x: 0.0, y: 0.0, radius: 20.0, cos: 1.0, sin: 0.0, face_x: 30.0, face_y: 30.0, lift }
    }

    fn sponge() -> Sponge {
        Sponge { lift: Mm(0.16), puts_back: 0.15, stays_on: 0.1, ..Sponge::default() }
    }

    fn face() -> SpongeFace {
        SpongeFace::alike([16.0, 0.0, 1.0, 0.0])
    }

    /// Even coats on a disc of 50 mm in cells of half a millimeter; the bottom one first.
    fn bed(depths: &[f32]) -> PowderBed {
        let grid = Grid::new(Disc::new(Mm(50.0)), 100);
        PowderBed::sifted(grid, depths.iter().map(|depth| vec![*depth; grid.len()]))
    }

    fn near(what: &str, got: f32, want: f32) {
        assert!((got - want).abs() < 2e-3 * want.abs() + 1e-5, "{what}: {got}, not {want}");
    }

    #[test]
    fn one_touch_lifts_what_it_is_said_to_from_the_top() {
        let (sponge, face) = (sponge(), face());
        let mut work = Dabbing::new(bed(&[0.3, 0.1]), &sponge, &face);
        work.press(&press(0.16));
        let at = |x: f32, y: f32| work.grid.cell_at(x, y);
        // In the middle the foot presses in full: 0.16 mm, all 0.1 of the upper coat and 0.06 of the lower.
        near("upper", work.coats[1][at(0.1, 0.1)], 0.0);
        near("lower", work.coats[0][at(0.1, 0.1)], 0.24);
        // Toward the rim of the foot it presses by 4 (1 - (r/a)²) of it: half where r² = 7/8 a².
        let half = work.coats[1][at(18.75, 0.1)];
        let pressed = 4.0 * (1.0 - (18.75f32 * 18.75 + 0.0625) / 400.0);
        near("upper at the foot's rim", half, 0.1 - 0.16 * pressed.at_most(0.1 / 0.16));
        near("beyond the foot", work.coats[1][at(20.6, 0.1)], 0.1);
        // What is gone is on the sponge.
        let area = f64::from(work.grid.cell_area());
        let gone: f64 = work.coats[1].iter().map(|depth| f64::from(0.1 - depth) * area).sum();
        let carried: f64 =
            work.load.chunks_exact(2).map(|load| f64::from(load[1] * LOAD_CELL * LOAD_CELL)).sum();
        assert!((gone / carried - 1.0).abs() < 1e-4, "{gone} and {carried}");
    }

    #[test]
    fn a_loaded_sponge_puts_back_and_lifts_less() {
        let (sponge, face) = (sponge(), face());
        let mut work = Dabbing::new(bed(&[1.0]), &sponge, &face);
        work.press(&press(0.16));
        let middle = work.grid.cell_at(0.1, 0.1);
        work.press(&press(0.16));
        // Each load cell carried 0.16 mm when the press began, so it lifts 1 - 0.16/0.27 of what it would, what was put back
        // first. A share of 0.15 of what it holds goes back: of 0.16 mm and of what its cells gave so far.
        let lifted = 0.16 * (1.0 - 0.16 / LOAD_LIMIT);
        let there = work.coats[0][middle] + work.put_back[0][middle];
        let (least, most) = (0.84 - lifted + 0.15 * 0.12, 0.84 - lifted + 0.15 * (0.16 + lifted));
        assert!((least..=most).contains(&there), "{there}, not {least} to {most}");
        assert!(work.put_back[0][middle] < 1e-6, "what was put back is lifted first");
        // A full sponge lifts nothing, but it goes on putting back.
        let [full, ..] = load_cells(press(0.16).to_face(Four::of(0.1), Four::of(0.1)));
        work.load[full] = LOAD_LIMIT;
        let before = work.coats[0][middle];
        work.press(&press(0.16));
        near("under a full sponge", work.coats[0][middle], before);
        assert!(work.put_back[0][middle] > 0.02, "{}", work.put_back[0][middle]);
    }

    #[test]
    fn the_first_cell_gets_back_its_share() {
        let (sponge, face) = (sponge(), face());
        let mut work = Dabbing::new(bed(&[1.0]), &sponge, &face);
        let on_face = press(0.0).to_face(Four::of(0.0), Four::of(0.0));
        let (cell, [at, ..]) = (work.grid.cell_at(0.1, 0.1), load_cells(on_face));
        (work.load[at], work.carried[at]) = (0.1, 0.1);
        let (row, column) = (cell / work.grid.n(), cell % work.grid.n());
        // Half a contact with the first of four: half of 0.15 of the load, 0.1 mm, goes back.
        let contact = Four::new([0.5, 0.0, 0.0, 0.0]);
        work.touch(&Cells { row, column, on_face, contact, lift: Four::of(0.0) });
        near("put back", work.put_back[0][cell], 0.5 * 0.15 * 0.1);
        near("load", work.load[at], 0.1 - 0.0075 * work.grid.cell_area() / (LOAD_CELL * LOAD_CELL));
    }

    #[test]
    fn brushing_leaves_the_residue() {
        let (sponge, face) = (sponge(), face());
        let mut work = Dabbing::new(bed(&[1.0]), &sponge, &face);
        work.load[7] = 0.2;
        work.brush();
        near("residue", work.load[7], 0.02);
        near("brushed", work.brushed[0] as f32, 0.18 * 4.0);
    }

    #[test]
    fn a_dip_gives_back_the_lift() {
        let lift = |every: Option<u32>, roll: u32| lift_of(&Sponge { rewet_every: every, ..sponge() }, roll);
        near("dry for ten rolls", lift(None, 10), 0.16 * 0.904_382);
        near("just dipped", lift(Some(5), 10), 0.16);
        near("two rolls after", lift(Some(5), 12), 0.16 * 0.9801);
    }

    /// On a whole disc: with a dip before every roll more comes off than without any.
    #[test]
    fn a_sponge_that_is_dipped_takes_more() {
        let face = face();
        let left = |every: Option<u32>| {
            let sponge = Sponge { rewet_every: every, puts_back: 0.0, stays_on: 0.0, ..sponge() };
            dab(bed(&[5.0]), &sponge, &face, Seed(1)).volume(0)
        };
        let (laid, dipped, dry) = (bed(&[5.0]).volume(0), left(Some(1)), left(None));
        let rolls = f64::from(rolls(&sponge(), bed(&[5.0]).grid.disc()));
        assert!(rolls >= 3.0, "{rolls}");
        // Every roll a hundredth less than the one before, about the same area each.
        let mean = (1.0 - pow(0.99, rolls)) / (0.01 * rolls);
        let got = (laid - dry) / (laid - dipped);
        assert!((got - mean).abs() < 0.3 * (1.0 - mean), "{got} for {mean}");
    }
}
