//! Sifting one coat: how deep its loose powder lies in every cell.

use super::edge::Edge;
use super::field::{Lattice, fractal};
use super::laid::{Laid, beyond};
use super::patch_fall::{PatchFall, pull};
use super::patches::{before_warp, correlation_length, cut, of_few};
use super::rim::Rim;
use super::warp::{Warp, Warped};
use crate::base::grid::Grid;
use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, PI, floor, pow, smoothstep, within};
use crate::base::seed::{Purpose, Seed};
use crate::recipe::lie::Lie;
use crate::recipe::limits::{LEAST_UNEVEN, MOST_UNEVEN};
use crate::recipe::plan::SiftPlan;
use crate::recipe::{Fall, Patches, ThickAndThin};
use rand::Rng;

/// Cells across the grid on which coverage and ranks are settled, whatever the size of the picture.
const REFERENCE_CELLS: usize = 128;

/// Depth of loose powder, mm per cell, of one coat. Cells off the disc hold 0.
pub fn sift(plan: &SiftPlan, seed: Seed, grid: Grid) -> Vec<f32> {
    Falling::new(plan, seed).sift(plan, grid)
}

/// Everything about a coat's fall that depends neither on the cells nor on how deep it lies: it stays while a depth
/// is dragged.
#[derive(Debug)]
pub struct Falling {
    /// The plan, however deep.
    plan: SiftPlan,
    lie: Lie,
    broad: Lattice,
    rim: Rim,
    kind: Kind,
}

#[derive(Debug)]
enum Kind {
    Even {
        fine: Lattice,
    },
    Patches {
        fall: PatchFall,
        laid: Option<Laid>,
    },
    /// With the field's value and weight in every reference cell.
    ThickAndThin {
        warped: Warped<1>,
        detail: Lattice,
        fine: Lattice,
        cells: Vec<(f32, f32)>,
    },
    Nothing,
}

/// How deep the powder is meant to lie, mm.
enum Depth {
    Same(f32),
    ByRank(Ranked),
}

impl Falling {
    /// The fall of a coat; plans that differ in [`SiftPlan::however_deep`] alone share it.
    pub fn new(plan: &SiftPlan, seed: Seed) -> Self {
        Self::made(plan, seed, !plan.layout.by_hand.is_empty())
    }

    /// The fall with every patch known by itself, whether the hand moved one or not.
    pub(super) fn whole(plan: &SiftPlan, seed: Seed) -> Self {
        Self::made(plan, seed, true)
    }

    /// Depth of loose powder, mm per cell, as deep as a plan says that shares this fall. Cells off the disc hold 0.
    pub fn sift(&self, plan: &SiftPlan, grid: Grid) -> Vec<f32> {
        let depth = self.depth(plan);
        let mut depths = vec![0.0; grid.len()];
        grid.tabulate(&mut depths, |x, y| self.depth_at(&depth, x, y));
        depths
    }

    fn made(plan: &SiftPlan, seed: Seed, apart: bool) -> Self {
        let layout = &plan.layout;
        let purpose = Purpose::Coat { id: plan.falls_by(), reroll: layout.rerolls };
        let mut rng = layout.locked_to.unwrap_or(seed).stream(purpose);
        let lie = Lie::new(layout);
        let mut reach = plan.disc.radius() + lie.moved();
        let patches = matches!(plan.fall, Fall::Patches(_));
        if let (Fall::Patches(patches), true) = (&plan.fall, apart) {
            reach += beyond(patches.size.f32());
        }
        let broad = if patches { 14.0 } else { 24.0 };
        let broad = fractal(&mut rng, broad, 1, 1.0, plan.disc.radius(), reach);
        let rim = Rim::new(&mut rng, plan.disc.radius(), plan.bare_rim_raggedness);
        let mut fall = Self { plan: plan.however_deep(), lie, broad, rim, kind: Kind::Nothing };
        fall.kind = match &plan.fall {
            Fall::Even { .. } => Kind::Even { fine: fall.fine(&mut rng, reach) },
            Fall::Patches(patches) if patches.coverage > 0.0 || apart => {
                let patches = fall.patches(patches, &mut rng, reach);
                let laid = apart.then(|| Laid::new(&patches, &fall.broad, &layout.by_hand));
                Kind::Patches { fall: patches, laid }
            }
            Fall::Patches(_) => Kind::Nothing,
            Fall::ThickAndThin(range) => fall.thick_and_thin(range, &mut rng, reach),
        };
        fall
    }

    fn patches(&self, patches: &Patches, rng: &mut impl Rng, reach: f32) -> PatchFall {
        let radius = self.plan.disc.radius();
        let none = patches.coverage <= 0.0;
        // Where none fall and some were added, the waves are of no account, but the pane before them is.
        let ell =
            if none { correlation_length(patches.size.0, 0.5) } else { self.correlation_length(patches) };
        let ell = ell as f32;
        let warp = Warp { by: patches.raggedness.f32(), size: 8.0, octaves: 2 };
        let warped = Warped::with_slope(rng, ell, &warp, radius, reach);
        let toward_rim = patches.toward_rim as f32;
        let (mut cells, area) = self.reference(&|x, y| warped.all(x, y)[0] + pull(x, y, toward_rim, radius));
        let cut = if none { f32::INFINITY } else { cut(&mut cells, patches.coverage * area) };
        PatchFall { edge: Edge::new(patches), warped, cut, toward_rim, radius, reach }
    }

    /// The correlation length (mm) of waves that give patches as wide as asked on a disc with a bare rim.
    fn correlation_length(&self, patches: &Patches) -> f64 {
        let radius = f64::from(self.plan.disc.radius());
        let room = (radius - f64::from(self.plan.bare_rim)).max(0.1 * radius);
        // All patches lie within the bare rim, so they lie closer there.
        let share = (patches.coverage * (radius / room) * (radius / room)).min(0.98);
        let area = f64::from(PI) * room * room;
        let even = before_warp(patches.size.0, patches.raggedness.0);
        correlation_length(of_few(even, share, area), share)
    }

    fn thick_and_thin(&self, range: &ThickAndThin, rng: &mut impl Rng, reach: f32) -> Kind {
        let ell = range.blotch_size.f32() / PI;
        let warp = Warp { by: range.raggedness.f32(), size: 16.0, octaves: 3 };
        let warped = Warped::new(rng, ell, &warp, self.plan.disc.radius(), reach);
        let detail = fractal(rng, 0.8 * ell, 3, 0.5, self.plan.disc.radius(), reach);
        let (cells, _) = self.reference(&|x, y| warped.all(x, y)[0] + detail.sample(x, y) * DETAIL);
        let fine = self.fine(rng, reach);
        Kind::ThickAndThin { warped, detail, fine, cells }
    }

    /// The fine part of the hand's wobble.
    fn fine(&self, rng: &mut impl Rng, reach: f32) -> Lattice {
        fractal(rng, 4.5, 1, 1.0, self.plan.disc.radius(), reach)
    }

    fn depth(&self, plan: &SiftPlan) -> Depth {
        match (&self.kind, &plan.fall) {
            (Kind::ThickAndThin { cells, .. }, Fall::ThickAndThin(range)) => {
                let (thin, thick) = (range.thinnest.0, range.thickest.0);
                let value = |rank| (thin * pow(thick / thin, pow(rank, range.mostly_thin))) as f32;
                Depth::ByRank(Ranked::new(cells, value))
            }
            _ => Depth::Same(plan.depth()),
        }
    }

    /// A field's value and weight in every reference cell that powder can reach, and the area of the whole disc in
    /// the same weights.
    fn reference(&self, field: &(dyn Fn(Four, Four) -> Four + Sync)) -> (Vec<(f32, f32)>, f64) {
        let grid = Grid::new(self.plan.disc, REFERENCE_CELLS);
        let (mut heights, mut shares) = (vec![0.0; grid.len()], vec![0.0; grid.len()]);
        // Not a number where no powder falls.
        grid.tabulate(&mut heights, |x, y| {
            let (u, v) = self.lie.to_layout(x, y);
            self.within_rim(x, y).above(Four::of(0.0), field(u, v), Four::of(f32::NAN))
        });
        grid.tabulate(&mut shares, |x, y| grid.share_at(x, y));
        let area = shares.iter().copied().map(f64::from).sum();
        let cells = heights.into_iter().zip(shares);
        let cells = cells.filter(|(height, share)| !height.is_nan() && *share > 0.0).collect();
        (cells, area)
    }

    /// Depth at four places (x, y) on the disc, mm.
    #[inline]
    fn depth_at(&self, depth: &Depth, x: Four, y: Four) -> Four {
        let clean = self.clean_of_rim(x, y);
        if !clean.any_above(0.0) {
            return clean;
        }
        let (u, v) = self.lie.to_layout(x, y);
        clean
            * match (&self.kind, depth) {
                (Kind::Even { fine }, Depth::Same(depth)) => {
                    self.wobble((u, v), fine.sample(u, v) * FINE_WOBBLE) * *depth
                }
                (Kind::Patches { fall, laid: None }, Depth::Same(depth)) => {
                    self.in_patch(fall, *depth, fall.inside(u, v), (u, v))
                }
                (Kind::Patches { fall, laid: Some(laid) }, Depth::Same(depth)) => {
                    laid.deepest(fall, &self.broad, (u, v), |inside, from| {
                        self.in_patch(fall, *depth, inside, from)
                    })
                }
                (Kind::ThickAndThin { warped, detail, fine, .. }, Depth::ByRank(depths)) => {
                    let height = warped.all(u, v)[0] + detail.sample(u, v) * DETAIL;
                    depths.at(height) * self.wobble((u, v), fine.sample(u, v) * FINE_WOBBLE)
                }
                _ => Four::of(0.0),
            }
    }

    /// Depth so far within a patch's outline, at places of the layout, mm. One copy of it is enough.
    #[inline(never)]
    fn in_patch(&self, fall: &PatchFall, depth: f32, inside: Four, from: (Four, Four)) -> Four {
        if !inside.any_above(-fall.edge.end) {
            return Four::of(0.0);
        }
        fall.edge.share(inside) * self.wobble(from, Four::of(0.0)) * depth
    }

    /// The hand's wobble at places of the layout: what the depth is multiplied by.
    #[inline]
    fn wobble(&self, (u, v): (Four, Four), fine: Four) -> Four {
        let sum = (self.broad.sample(u, v) + fine) * self.plan.unevenness + 1.0;
        within(sum, LEAST_UNEVEN, MOST_UNEVEN)
    }

    /// 1 where powder falls, 0 on the bare rim; the ragged edge between them lies at a half.
    #[inline]
    fn clean_of_rim(&self, x: Four, y: Four) -> Four {
        const SOFT: f32 = 0.4;
        let inside = self.within_bare_rim(x, y);
        // Where all four lie far enough in, the edge is of no account.
        if !(-inside).any_above(-(SOFT + self.rim.widest)) {
            return Four::of(1.0);
        }
        smoothstep(-SOFT, SOFT, inside - self.rim.margin(self.lie.way_to_layout(x, y)))
    }

    /// How far within the ragged edge of the bare rim a place on the disc lies, mm.
    #[inline]
    pub(super) fn within_rim<T: Number>(&self, x: T, y: T) -> T {
        self.within_bare_rim(x, y) - self.rim.margin(self.lie.way_to_layout(x, y))
    }

    /// The same, were the edge not ragged.
    #[inline]
    fn within_bare_rim<T: Number>(&self, x: T, y: T) -> T {
        -(x * x + y * y).root() + (self.plan.disc.radius() - self.plan.bare_rim)
    }

    /// The patches as they fell and as the hand left them, if the coat has patches and was made [`Self::whole`].
    pub(super) fn patches_laid(&self) -> Option<(&PatchFall, &Laid)> {
        match &self.kind {
            Kind::Patches { fall, laid: Some(laid) } => Some((fall, laid)),
            _ => None,
        }
    }

    /// How the layout lies on the disc.
    pub(super) fn lie(&self) -> &Lie {
        &self.lie
    }

    /// The broad part of the hand's wobble.
    pub(super) fn broad(&self) -> &Lattice {
        &self.broad
    }
}

/// The fine part of an even coat's wobble, relative to the broad part.
const FINE_WOBBLE: f32 = 0.35;
/// How much fractal detail is added to the waves of a thick-and-thin coat.
const DETAIL: f32 = 0.25;

/// A value by area rank: the share of the disc on which a field is lower decides.
struct Ranked {
    lowest: f32,
    per_unit: f32,
    values: Vec<f32>,
}

impl Ranked {
    const BINS: usize = 1024;

    /// `value(rank)` for each height of the field, ranks taken from weighted cells.
    fn new(cells: &[(f32, f32)], value: impl Fn(f64) -> f32) -> Self {
        let lowest = cells.iter().fold(f32::INFINITY, |low, cell| low.at_most(cell.0));
        let highest = cells.iter().fold(f32::NEG_INFINITY, |high, cell| high.at_least(cell.0));
        let per_unit = Self::BINS as f32 / (highest - lowest).at_least(1e-6);
        let mut weights = vec![0.0f64; Self::BINS];
        for (height, weight) in cells {
            let bin = floor((height - lowest) * per_unit).clamp(0, Self::BINS as i32 - 1);
            weights[bin as usize] += f64::from(*weight);
        }
        let total: f64 = weights.iter().sum::<f64>().max(1e-12);
        let mut below = 0.0;
        let mut values = vec![value(0.0)];
        for weight in weights {
            below += weight;
            values.push(value((below / total).min(1.0)));
        }
        Self { lowest, per_unit, values }
    }

    #[inline]
    fn at(&self, height: Four) -> Four {
        Four::along(
            &self.values,
            within((height - self.lowest) * self.per_unit, 0.0, Self::BINS as f32 - 0.01).point(),
        )
    }
}
