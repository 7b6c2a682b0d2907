//! The patches of a coat as they lie on the disc, for the page to draw and to take hold of.

use super::contour::{Outline, Table, area_and_middle, simplified};
use super::laid::{Added, Laid};
use super::patch_fall::PatchFall;
use super::patchwork::PITCH;
use super::sift::Falling;
use crate::base::scalar::{Bounds, PI};
use crate::base::seed::Seed;
use crate::recipe::plan::SiftPlan;
use crate::recipe::{Place, WhichPatch};

/// A patch as it lies on the disc: mirrored, turned, nudged and moved. Lengths in mm on the disc.
#[derive(Clone, Debug, PartialEq)]
pub struct LyingPatch {
    /// What to call it by to move it or to take it off.
    pub which: WhichPatch,
    /// The middle of what shows of it inside the bare rim.
    pub middle: [f32; 2],
    /// Share of the disc that it covers.
    pub share: f32,
    /// Whether the hand moved or added it.
    pub by_hand: bool,
    /// Closed outlines, the last point joined to the first; holes are outlines too, so fill them by the even-odd rule.
    pub outlines: Vec<Outline>,
}

/// How far an outline may be simplified, mm.
const TOLERANCE: f32 = 0.12;

/// All patches of a coat on the disc, lowest first: those that lie as they fell, then the moved, then the added
/// ones. None if the coat has no patches.
pub fn lying(plan: &SiftPlan, seed: Seed) -> Vec<LyingPatch> {
    let falling = Falling::whole(plan, seed);
    let Some((fall, laid)) = falling.patches_laid() else { return Vec::new() };
    let look = Look { falling: &falling, fall, laid };
    let as_they_fell = (1..laid.gone.len()).filter(|patch| !laid.gone[*patch]);
    let mut patches: Vec<LyingPatch> =
        as_they_fell.filter_map(|patch| look.fallen(patch as u32, (0.0, 0.0), None)).collect();
    patches.extend(laid.moved.iter().filter_map(|moved| look.fallen(moved.patch, moved.by, Some(moved.at))));
    patches.extend(laid.added.iter().enumerate().filter_map(|(at, added)| look.added(at, added)));
    patches
}

/// The patch on top at a place on the disc, mm, as a position in the list that [`lying`] gave.
pub fn patch_at(patches: &[LyingPatch], x: f32, y: f32) -> Option<usize> {
    patches
        .iter()
        .rposition(|patch| patch.outlines.iter().filter(|outline| within(outline, x, y)).count() % 2 == 1)
}

/// Whether a place is surrounded by an outline: a line to its right crosses it an odd number of times.
fn within(outline: &Outline, x: f32, y: f32) -> bool {
    let mut odd = false;
    let mut before = outline[outline.len() - 1];
    for point in outline {
        let crosses = (point[1] > y) != (before[1] > y);
        if crosses && x < before[0] + (y - before[1]) / (point[1] - before[1]) * (point[0] - before[0]) {
            odd = !odd;
        }
        before = *point;
    }
    odd
}

struct Look<'a> {
    falling: &'a Falling,
    fall: &'a PatchFall,
    laid: &'a Laid,
}

impl Look<'_> {
    /// A patch that fell, moved by so much and called by its place in the recipe if it has one there.
    fn fallen(&self, patch: u32, by: (f32, f32), at: Option<Place>) -> Option<LyingPatch> {
        let covers = self.laid.work.covers[patch as usize];
        let table = Table::new(covers.columns, covers.rows, |i, j| {
            let (here, inside) = self.laid.work.point(i, j);
            if here != patch {
                return -inside.abs();
            }
            inside.at_most(self.clear_of_rim(i as f32 * PITCH + by.0, j as f32 * PITCH + by.1))
        });
        let at = at.unwrap_or_else(|| {
            let (i, j) = table.highest();
            [f64::from(i as f32 * PITCH), f64::from(j as f32 * PITCH)]
        });
        let moved = self.laid.gone[patch as usize];
        self.seen(&table, WhichPatch::Fallen(at), moved, |[i, j]| (i * PITCH + by.0, j * PITCH + by.1))
    }

    fn added(&self, at: usize, added: &Added) -> Option<LyingPatch> {
        // A small one has a lattice of its own, or it would fall through.
        const POINTS: i32 = 40;
        let pitch = (added.span(self.fall) / POINTS as f32).at_most(PITCH);
        let points = (added.span(self.fall) / pitch) as i32 + 1;
        let place = |i: f32, j: f32| (added.middle.0 + i * pitch, added.middle.1 + j * pitch);
        let table = Table::new((-points, points), (-points, points), |i, j| {
            let (u, v) = place(i as f32, j as f32);
            let inside = added.inside(self.fall, self.falling.broad(), added.from(u, v));
            inside.at_most(self.clear_of_rim(u, v))
        });
        self.seen(&table, WhichPatch::Added(at), true, |[i, j]| place(i, j))
    }

    /// How far within the bare rim a place of the layout lies, mm.
    fn clear_of_rim(&self, u: f32, v: f32) -> f32 {
        let (x, y) = self.falling.lie().to_disc(u, v);
        self.falling.within_rim(x, y)
    }

    /// What shows of a patch; nothing if all of it lies beyond the rim.
    fn seen(
        &self,
        table: &Table,
        which: WhichPatch,
        by_hand: bool,
        place: impl Fn([f32; 2]) -> (f32, f32),
    ) -> Option<LyingPatch> {
        let mut outlines = table.outlines();
        let lie = self.falling.lie();
        outlines.iter_mut().flatten().for_each(|point| *point = place(*point).into());
        let (area, middle) = area_and_middle(&outlines);
        if area <= 0.0 {
            return None;
        }
        outlines.iter_mut().flatten().for_each(|point| *point = lie.to_disc(point[0], point[1]).into());
        let radius = self.fall.radius;
        Some(LyingPatch {
            which,
            middle: lie.to_disc(middle[0], middle[1]).into(),
            share: area / (PI * radius * radius),
            by_hand,
            outlines: outlines.iter().map(|outline| simplified(outline, TOLERANCE)).collect(),
        })
    }
}
