//! Sifting one coat: how deep its loose powder lies in every cell.

use super::field::{Lattice, fractal, plane_waves};
use super::patches::{correlation_length, cut};
use crate::base::grid::Grid;
use crate::base::scalar::{Bounds, exp2, floor, lerp, pow, sin_cos, smoothstep};
use crate::base::seed::{Purpose, Seed};
use crate::recipe::limits::{LEAST_UNEVEN, MOST_UNEVEN};
use crate::recipe::plan::SiftPlan;
use crate::recipe::{Fall, Patches, ThickAndThin};
use rand::Rng;

/// Cells across the grid on which coverage and ranks are settled, whatever the size of the picture.
const REFERENCE_CELLS: usize = 128;

/// Depth of loose powder, mm per cell, of one coat. Cells off the disc hold 0.
pub fn sift(plan: &SiftPlan, seed: Seed, grid: Grid) -> Vec<f32> {
    let fall = Falling::new(plan, seed);
    let mut depths = vec![0.0; grid.len()];
    grid.each(|i, column, row| depths[i] = fall.depth(grid.x(column), grid.y(row)));
    depths
}

/// Everything about a coat's fall that does not depend on the cells: depth as a function of millimeters.
struct Falling<'a> {
    plan: &'a SiftPlan,
    lie: Lie,
    broad: Lattice,
    fine: Lattice,
    kind: Kind,
}

enum Kind {
    Even(f32),
    Patches { depth: f32, edge: Edge, pull: f32, warped: Warped<2>, cut: f32 },
    ThickAndThin { warped: Warped<1>, detail: Lattice, depths: Ranked },
    Nothing,
}

impl<'a> Falling<'a> {
    fn new(plan: &'a SiftPlan, seed: Seed) -> Self {
        let layout = &plan.layout;
        let purpose = Purpose::Coat { id: plan.id, reroll: layout.rerolls };
        let mut rng = layout.locked_to.unwrap_or(seed).stream(purpose);
        let lie = Lie::new(plan);
        let reach = plan.disc.radius() + lie.moved();
        let patches = matches!(plan.fall, Fall::Patches(_));
        let broad = if patches { 14.0 } else { 24.0 };
        let broad = fractal(&mut rng, broad, 1, 1.0, plan.disc.radius(), reach);
        let fine = fractal(&mut rng, 4.5, 1, 1.0, plan.disc.radius(), reach);
        let mut fall = Self { plan, lie, broad, fine, kind: Kind::Nothing };
        fall.kind = match &plan.fall {
            Fall::Even { depth } => Kind::Even(depth.f32()),
            Fall::Patches(patches) if patches.coverage > 0.0 => fall.patches(patches, &mut rng, reach),
            Fall::Patches(_) => Kind::Nothing,
            Fall::ThickAndThin(range) => fall.thick_and_thin(range, &mut rng, reach),
        };
        fall
    }

    fn patches(&self, patches: &Patches, rng: &mut impl Rng, reach: f32) -> Kind {
        // Warping roughens the outline and so shortens chords; the waves are asked for longer ones to make up for it.
        let chord = patches.size.0 * (1.0 + WARP_SHORTENS * patches.raggedness.0);
        let ell = correlation_length(chord, patches.coverage) as f32;
        let warp = Warp { by: patches.raggedness.f32(), size: 8.0, octaves: 2 };
        let warped = Warped::new(rng, ell, &warp, self.plan.disc.radius(), reach).with_slope(0.35 / ell);
        let pull = patches.toward_rim as f32;
        let (mut cells, area) = self.reference(|x, y| warped.all(x, y)[0] + self.pull(x, y, pull));
        let cut = cut(&mut cells, patches.coverage * area);
        Kind::Patches { depth: patches.depth.f32(), edge: Edge::new(patches), pull, warped, cut }
    }

    fn thick_and_thin(&self, range: &ThickAndThin, rng: &mut impl Rng, reach: f32) -> Kind {
        let ell = range.blotch_size.f32() / crate::base::scalar::PI;
        let warp = Warp { by: range.raggedness.f32(), size: 16.0, octaves: 3 };
        let warped = Warped::new(rng, ell, &warp, self.plan.disc.radius(), reach);
        let detail = fractal(rng, 0.8 * ell, 3, 0.5, self.plan.disc.radius(), reach);
        let (cells, _) = self.reference(|x, y| warped.all(x, y)[0] + DETAIL * detail.sample(x, y));
        let (thin, thick) = (range.thinnest.0, range.thickest.0);
        let depths =
            Ranked::new(&cells, |rank| (thin * pow(thick / thin, pow(rank, range.mostly_thin))) as f32);
        Kind::ThickAndThin { warped, detail, depths }
    }

    /// A field's value and weight in every reference cell that powder can reach, and the area of the whole disc in
    /// the same weights.
    fn reference(&self, mut field: impl FnMut(f32, f32) -> f32) -> (Vec<(f32, f32)>, f64) {
        let grid = Grid::new(self.plan.disc, REFERENCE_CELLS);
        let mut cells = Vec::with_capacity(grid.len());
        let mut area = 0.0;
        grid.each(|_, column, row| {
            let share = grid.share(column, row);
            area += f64::from(share);
            let (x, y) = (grid.x(column), grid.y(row));
            let (u, v) = self.lie.to_layout(x, y);
            if self.clean_of_rim((x, y), (u, v)) > 0.5 {
                cells.push((field(u, v), share));
            }
        });
        (cells, area)
    }

    /// Depth at (x, y) on the disc, mm.
    fn depth(&self, x: f32, y: f32) -> f32 {
        let (u, v) = self.lie.to_layout(x, y);
        let clean = self.clean_of_rim((x, y), (u, v));
        if clean <= 0.0 {
            return 0.0;
        }
        let wobble = |fine: f32| {
            let sum = 1.0 + self.plan.unevenness * (self.broad.sample(u, v) + fine);
            sum.clamp(LEAST_UNEVEN, MOST_UNEVEN)
        };
        clean
            * match &self.kind {
                Kind::Nothing => 0.0,
                Kind::Even(depth) => depth * wobble(FINE_WOBBLE * self.fine.sample(u, v)),
                Kind::Patches { depth, edge, pull, warped, cut } => {
                    let [height, inverse_slope] = warped.all(u, v);
                    let share = edge.share((height + self.pull(u, v, *pull) - cut) * inverse_slope);
                    if share > 0.0 { depth * share * wobble(0.0) } else { 0.0 }
                }
                Kind::ThickAndThin { warped, detail, depths } => {
                    let height = warped.all(u, v)[0] + DETAIL * detail.sample(u, v);
                    depths.at(height) * wobble(FINE_WOBBLE * self.fine.sample(u, v))
                }
            }
    }

    /// 1 where powder falls, 0 on the bare rim; the ragged edge between them lies at a half.
    fn clean_of_rim(&self, (x, y): (f32, f32), (u, v): (f32, f32)) -> f32 {
        const SOFT: f32 = 0.4;
        let inside = self.plan.disc.radius() - (x * x + y * y).sqrt() - self.plan.bare_rim;
        let ragged = self.plan.bare_rim_raggedness;
        if inside > SOFT + 6.0 * ragged {
            return 1.0;
        }
        smoothstep(-SOFT, SOFT, inside - ragged * self.fine.sample(u, v))
    }

    /// What a pull of the patches toward the rim (or, negative, the crown) adds to the field.
    fn pull(&self, x: f32, y: f32, toward_rim: f32) -> f32 {
        let r = self.plan.disc.radius();
        2.0 * toward_rim * ((x * x + y * y) / (r * r) - 0.5)
    }
}

/// Share of chord lost per mm of warp at an 8 mm pitch, measured over seeds (tests hold the resulting chord).
const WARP_SHORTENS: f64 = 0.20;
/// The fine part of an even coat's wobble, relative to the broad part.
const FINE_WOBBLE: f32 = 0.35;
/// How much fractal detail is added to the waves of a thick-and-thin coat.
const DETAIL: f32 = 0.25;

/// How a patch rises from its outline: numbers of [`Patches`], made ready for a loop.
struct Edge {
    soft: f32,
    per_soft: f32,
    per_margin: f32,
    left: f32,
    dust: f32,
    /// Halvings of the dust per mm.
    dust_per_mm: f32,
    /// How far out there is any powder, mm.
    end: f32,
}

impl Edge {
    fn new(patches: &Patches) -> Self {
        let soft = patches.soft_edge.f32().at_least(0.02) / 2.0;
        let reach = patches.stray_reach.f32();
        let dusty = reach > 0.0 && patches.stray_dust > 0.0;
        Self {
            soft,
            per_soft: 0.5 / soft,
            per_margin: 1.0 / patches.thin_margin.f32().at_least(1e-3),
            left: patches.margin_left as f32,
            dust: if dusty { patches.stray_dust as f32 } else { 0.0 },
            dust_per_mm: std::f32::consts::LOG2_E / reach.at_least(1e-3),
            end: if dusty { soft.at_least(5.0 * reach) } else { soft },
        }
    }

    /// The depth at a signed distance from the outline (mm, positive inside), as a share of the full depth.
    #[inline]
    fn share(&self, inside: f32) -> f32 {
        if inside < -self.end {
            return 0.0;
        }
        let t = ((inside + self.soft) * self.per_soft).clamp(0.0, 1.0);
        let body = t * t * (3.0 - 2.0 * t) * lerp(self.left, 1.0, (inside * self.per_margin).clamp(0.0, 1.0));
        if inside > self.soft {
            return body;
        }
        body.at_least(self.dust * exp2(inside.at_most(0.0) * self.dust_per_mm))
    }
}

/// How a layout lies on the disc: mirrored, turned and moved.
struct Lie {
    cos: f32,
    sin: f32,
    mirror: f32,
    right: f32,
    up: f32,
}

impl Lie {
    fn new(plan: &SiftPlan) -> Self {
        let layout = &plan.layout;
        let (sin, cos) = sin_cos(layout.turned.0.to_radians());
        Self {
            cos: cos as f32,
            sin: sin as f32,
            mirror: if layout.mirrored { -1.0 } else { 1.0 },
            right: layout.moved_right.f32(),
            up: layout.moved_up.f32(),
        }
    }

    /// From a place on the disc to the place in the layout that lies there.
    fn to_layout(&self, x: f32, y: f32) -> (f32, f32) {
        let (x, y) = (x - self.right, y - self.up);
        (self.mirror * (self.cos * x + self.sin * y), self.cos * y - self.sin * x)
    }

    fn moved(&self) -> f32 {
        (self.right * self.right + self.up * self.up).sqrt()
    }
}

/// How a field is warped: by how much (standard deviation, mm), how wide its swirls are (mm), in how many octaves.
struct Warp {
    by: f32,
    size: f32,
    octaves: u32,
}

/// Plane waves seen through a warped pane: isotropic patches with a torn outline.
struct Warped<const N: usize> {
    waves: Lattice<N>,
    by: f32,
    pane: Lattice<2>,
}

impl Warped<1> {
    fn new(rng: &mut impl Rng, ell: f32, warp: &Warp, radius: f32, reach: f32) -> Self {
        // Warps beyond four standard deviations do not occur.
        let waves = plane_waves(rng, ell, reach + 4.0 * warp.by, (ell / 9.0).clamp(0.3, 1.6));
        let pane = fractal(rng, warp.size, warp.octaves, 0.5, radius, reach);
        Self { waves, by: warp.by, pane }
    }

    fn with_slope(self, least: f32) -> Warped<2> {
        Warped { waves: self.waves.with_inverse_slope(least), by: self.by, pane: self.pane }
    }
}

impl<const N: usize> Warped<N> {
    #[inline]
    fn all(&self, x: f32, y: f32) -> [f32; N] {
        let [right, up] = self.pane.all(x, y);
        self.waves.all(x + self.by * right, y + self.by * up)
    }
}

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

    fn at(&self, height: f32) -> f32 {
        let u = ((height - self.lowest) * self.per_unit).clamp(0.0, Self::BINS as f32 - 0.01);
        let i = u as usize;
        lerp(self.values[i], self.values[i + 1], u - i as f32)
    }
}
