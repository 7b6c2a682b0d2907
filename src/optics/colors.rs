//! The color of every cell of a bed or a fused disc, from the glasses' baked layers.

use super::layer::{BakedLayer, BakedPowder, Layer, Mixture};
use super::stack::{Lit, Seen};
use crate::base::grid::Grid;
use crate::base::scalar::{Bounds, exp2};
use crate::color::spectrum::{BANDS, Spectrum, to_linear};
use crate::color::srgb::{Linear, luminance};
use crate::fuse::settle::FusedDisc;
use crate::fuse::speckle::Speckle;
use crate::glass::material::Material;
use crate::layup::field::hash;
use crate::layup::powder_bed::PowderBed;
use crate::recipe::Side;
use crate::recipe::plan::{Blend, Plan};
use std::cell::OnceCell;

/// Reflectance of the table by day, linear: what lies under a piece of glass.
pub const TABLE: f32 = 0.305;
/// Full light on a perfect white shows as this, linear: the rest is headroom for gloss.
pub const WHITE: f32 = 0.84;

/// How bright a lamp must be for a bare blank that passes this to show well: the eye gets used to either.
pub fn lamp_for(bare_through: Linear) -> f32 {
    0.92 / luminance(bare_through).at_least(0.02)
}

/// What the colors of a piece depend on: its glasses and how deep they can lie, not where.
#[derive(Clone, Debug, PartialEq)]
pub struct PaletteInputs {
    /// Sheets, bottom to top: glass and thickness in mm.
    pub sheets: Vec<(Material, f32)>,
    /// The blends of the coats and the coats' numbers.
    pub coats: Vec<(u32, Blend)>,
    /// Share of a sifted bed that is glass.
    pub packing: f32,
    /// The deepest a coat can lie, loose, mm.
    pub deepest: f32,
}

impl PaletteInputs {
    /// The part of a plan that colors depend on.
    pub fn of(plan: &Plan) -> Self {
        Self {
            sheets: plan.sheets.iter().map(|s| (s.glass.material.clone(), s.thickness)).collect(),
            coats: plan.coats.iter().map(|coat| (coat.sift.id, coat.blend.clone())).collect(),
            packing: plan.packing,
            deepest: plan.deepest_coat(),
        }
    }
}

/// The glasses of a piece, baked.
#[derive(Debug)]
pub struct Palette {
    inputs: PaletteInputs,
    sheets: Vec<(Layer, bool)>,
    fired: Vec<BakedLayer>,
    /// Baked when loose powder is first looked at: a depth that is dragged in a fired piece does not wait for it.
    loose: OnceCell<Vec<BakedPowder>>,
    clear: bool,
}

/// A color per cell, linear sRGB with a perfect white being 1.
#[derive(Clone, Debug)]
pub struct ColorField {
    /// The grid.
    pub grid: Grid,
    /// One color per cell; cells off the disc hold black.
    pub colors: Vec<Linear>,
    /// Share of light that is scattered on its way through, per cell; empty unless the blank is clear.
    pub haze: Vec<f32>,
    /// The mean over the disc of the light that comes through; black in a field of the light that is sent back.
    pub mean: Linear,
}

/// A stack of sheets passing more straight light than this (in the middle of the spectrum) counts as clear.
pub const CLEAR_FROM: f32 = 0.01;

impl Palette {
    /// Bakes the glasses of a piece.
    pub fn new(inputs: &PaletteInputs) -> Self {
        let sheets: Vec<(Layer, bool)> = inputs
            .sheets
            .iter()
            .map(|(material, x)| (Layer::of(material, (*x).into()), material.scatters()))
            .collect();
        // Speckle can pile up a little more than the deepest coat.
        let fired = inputs.deepest * inputs.packing * 1.5;
        let unscattered: f32 = sheets.iter().map(|(layer, _)| layer.unscattered[BANDS / 2]).product();
        Self {
            fired: inputs.coats.iter().map(|(_, b)| BakedLayer::new(&b.material, fired)).collect(),
            loose: OnceCell::new(),
            clear: unscattered > CLEAR_FROM,
            inputs: inputs.clone(),
            sheets,
        }
    }

    fn baked_loose(&self) -> &[BakedPowder] {
        let PaletteInputs { coats, packing, deepest, .. } = &self.inputs;
        let bake = |(_, blend): &(u32, Blend)| {
            BakedPowder::new(&blend.material, blend.grain, *packing, deepest * 1.5)
        };
        self.loose.get_or_init(|| coats.iter().map(bake).collect())
    }

    /// Whether one sees through the blank.
    pub fn is_clear(&self) -> bool {
        self.clear
    }

    /// The blank itself on a ground of this reflectance, nothing on it.
    pub fn bare(&self, ground: f32) -> Linear {
        if self.clear { self.bare_as::<true>(ground) } else { self.bare_as::<false>(ground) }
    }

    fn bare_as<const CLEAR: bool>(&self, ground: f32) -> Linear {
        to_linear(&self.base::<CLEAR>(ground).shows::<CLEAR>(ground))
    }

    /// The light that comes through the blank itself, nothing on it.
    pub fn bare_through(&self) -> Linear {
        let mut lit = Lit::lamp();
        for (sheet, scatters) in &self.sheets {
            lit.lay::<true>((sheet, sheet, 0.0), *scatters);
        }
        to_linear(&lit.shows::<true>())
    }

    /// What shows when light has crossed `length` mm of the sheets along the disc: the tint of its edge.
    pub fn edge_tint(&self, length: f32) -> Linear {
        let thickness: f32 = self.inputs.sheets.iter().map(|(_, x)| x).sum();
        let mut tint = [0.0; BANDS];
        for (material, x) in &self.inputs.sheets {
            for band in 0..BANDS {
                // Scattered light leaves through the edge again: an opal edge is as white as its face.
                let loss = material.absorption[band] * length;
                tint[band] += exp2(-loss * std::f32::consts::LOG2_E) * x / thickness;
            }
        }
        to_linear(&tint)
    }

    fn base<const CLEAR: bool>(&self, ground: f32) -> Seen {
        let mut seen = Seen::ground(ground);
        for (sheet, scatters) in &self.sheets {
            seen.lay::<CLEAR>((sheet, sheet, 0.0), *scatters);
        }
        seen
    }

    /// Loose powder as it lies, on a ground of this reflectance.
    pub fn loose(&self, bed: &PowderBed, ground: f32) -> ColorField {
        let base = if self.clear {
            self.base::<true>(ground).shows::<true>(ground)
        } else {
            self.base::<false>(ground).shows::<false>(ground)
        };
        let speckles: Vec<Speckle> = self
            .inputs
            .coats
            .iter()
            .map(|(id, blend)| Speckle::loose(blend.sieve, bed.grid.cell(), hash(*id as i32, 0, 3)))
            .collect();
        let mut field = ColorField::black(bed.grid);
        bed.grid.each(|i, column, row| {
            let (x, y) = (bed.grid.x(column), bed.grid.y(row));
            let depth = |coat: usize, planes: &[Vec<f32>]| {
                let mean = planes[coat][i];
                if mean > 0.0 {
                    speckles[coat].apply(mean * self.inputs.packing, x, y) / self.inputs.packing
                } else {
                    0.0
                }
            };
            let mut shown = base;
            for coat in 0..bed.coats.len() {
                let depth = depth(coat, &bed.coats);
                if depth > 0.0 {
                    self.loose_layer(&mut shown, coat, depth);
                }
            }
            if !bed.put_back.is_empty() {
                self.loose_mixture(&mut shown, |coat| depth(coat, &bed.put_back));
            }
            field.colors[i] = to_linear(&shown);
        });
        field
    }

    #[inline]
    fn loose_layer(&self, shown: &mut Spectrum, coat: usize, depth: f32) {
        let (a, b, t) = self.baked_loose()[coat].at(depth);
        for band in 0..BANDS {
            let r = a.0[band] + (b.0[band] - a.0[band]) * t;
            let pass = a.1[band] + (b.1[band] - a.1[band]) * t;
            shown[band] = r + pass * pass * shown[band] / (1.0 - r * shown[band]);
        }
    }

    #[inline]
    fn loose_mixture(&self, shown: &mut Spectrum, depth: impl Fn(usize) -> f32) {
        let mut mixture = Mixture::default();
        let mut any = false;
        for (coat, powder) in self.baked_loose().iter().enumerate() {
            let depth = depth(coat);
            if depth > 0.0 {
                mixture.add(&powder.absorption, &powder.scatter, depth);
                any = true;
            }
        }
        if any {
            for band in 0..BANDS {
                let (r, t) =
                    super::kubelka_munk::thin_layer(mixture.absorbing[band], mixture.scattering[band]);
                shown[band] = r + t * t * shown[band] / (1.0 - r * shown[band]);
            }
        }
    }

    /// The fused disc by the light it sends back, on a ground of this reflectance, seen from the powder's side or
    /// from the other one.
    pub fn fired(&self, disc: &FusedDisc, seen_from: Side, ground: f32) -> ColorField {
        if self.clear {
            self.fired_as::<true>(disc, seen_from, ground)
        } else {
            self.fired_as::<false>(disc, seen_from, ground)
        }
    }

    fn fired_as<const CLEAR: bool>(&self, disc: &FusedDisc, seen_from: Side, ground: f32) -> ColorField {
        let base = self.base::<CLEAR>(ground);
        let mut field = ColorField::black(disc.grid);
        if CLEAR {
            field.haze = vec![0.0; disc.grid.len()];
        }
        disc.grid.each(|i, _, _| {
            let seen = match seen_from {
                Side::Out => {
                    let mut seen = base;
                    self.lay_coats(disc, i, |layer, scatters| seen.lay::<CLEAR>(layer, scatters));
                    seen
                }
                Side::In => {
                    let mut seen = Seen::ground(ground);
                    self.lay_coats_reversed(disc, i, |layer, scatters| seen.lay::<CLEAR>(layer, scatters));
                    for (sheet, scatters) in self.sheets.iter().rev() {
                        seen.lay::<CLEAR>((sheet, sheet, 0.0), *scatters);
                    }
                    seen
                }
            };
            field.colors[i] = to_linear(&seen.shows::<CLEAR>(ground));
            if CLEAR {
                field.haze[i] = 1.0 - seen.unscattered();
            }
        });
        field
    }

    /// The fused disc by the light that comes through it. It is the same from both sides.
    pub fn through(&self, disc: &FusedDisc) -> ColorField {
        if self.clear { self.through_as::<true>(disc) } else { self.through_as::<false>(disc) }
    }

    fn through_as<const CLEAR: bool>(&self, disc: &FusedDisc) -> ColorField {
        let mut base = Lit::lamp();
        for (sheet, scatters) in &self.sheets {
            base.lay::<CLEAR>((sheet, sheet, 0.0), *scatters);
        }
        let mut field = ColorField::black(disc.grid);
        let (mut sum, mut cells) = ([0.0f64; 3], 0.0);
        disc.grid.each(|i, _, _| {
            let mut lit = base;
            self.lay_coats(disc, i, |layer, scatters| lit.lay::<CLEAR>(layer, scatters));
            field.colors[i] = to_linear(&lit.shows::<CLEAR>());
            cells += 1.0;
            for k in 0..3 {
                sum[k] += f64::from(field.colors[i][k]);
            }
        });
        field.mean = sum.map(|sum| (sum / cells) as f32);
        field
    }

    #[inline]
    fn lay_coats(&self, disc: &FusedDisc, i: usize, mut lay: impl FnMut((&Layer, &Layer, f32), bool)) {
        for (plane, baked) in disc.coats.iter().zip(&self.fired) {
            if plane[i] > 0.0 {
                lay(baked.at(plane[i]), baked.scatters);
            }
        }
        if let Some((layer, scatters)) = self.mixture(disc, i) {
            lay((&layer, &layer, 0.0), scatters);
        }
    }

    fn lay_coats_reversed(
        &self,
        disc: &FusedDisc,
        i: usize,
        mut lay: impl FnMut((&Layer, &Layer, f32), bool),
    ) {
        if let Some((layer, scatters)) = self.mixture(disc, i) {
            lay((&layer, &layer, 0.0), scatters);
        }
        for (plane, baked) in disc.coats.iter().zip(&self.fired).rev() {
            if plane[i] > 0.0 {
                lay(baked.at(plane[i]), baked.scatters);
            }
        }
    }

    #[inline]
    fn mixture(&self, disc: &FusedDisc, i: usize) -> Option<(Layer, bool)> {
        let mut mixture = Mixture::default();
        let (mut any, mut scatters) = (false, false);
        for ((plane, (_, blend)), baked) in disc.mixture.iter().zip(&self.inputs.coats).zip(&self.fired) {
            if plane[i] > 1e-5 {
                mixture.add(&blend.material.absorption, &blend.material.scatter, plane[i]);
                any = true;
                scatters |= baked.scatters;
            }
        }
        any.then(|| (mixture.fired(), scatters))
    }

    /// One column of the fused disc with one more layer on it: what an accent there looks like, by the light it
    /// sends back on a ground of this reflectance, and by the light that comes through.
    pub fn with_on_top(
        &self,
        disc: &FusedDisc,
        cell: usize,
        material: &Material,
        thickness: f32,
        ground: f32,
    ) -> (Linear, Linear) {
        let top = (Layer::of(material, thickness.into()), material.scatters());
        let mut seen = self.base::<true>(ground);
        let mut lit = Lit::lamp();
        for (sheet, scatters) in &self.sheets {
            lit.lay::<true>((sheet, sheet, 0.0), *scatters);
        }
        self.lay_coats(disc, cell, |layer, scatters| {
            seen.lay::<true>(layer, scatters);
            lit.lay::<true>(layer, scatters);
        });
        seen.lay::<true>((&top.0, &top.0, 0.0), top.1);
        lit.lay::<true>((&top.0, &top.0, 0.0), top.1);
        (to_linear(&seen.shows::<true>(ground)), to_linear(&lit.shows::<true>()))
    }
}

impl ColorField {
    fn black(grid: Grid) -> Self {
        Self { grid, colors: vec![[0.0; 3]; grid.len()], haze: Vec::new(), mean: [0.0; 3] }
    }

    /// The color at (x, y) mm, interpolated; beyond the rim, the rim's.
    #[inline]
    pub fn sample(&self, x: f32, y: f32) -> Linear {
        let (at, (tx, ty)) = self.place(x, y);
        let n = self.grid.n();
        let (a, b) = (&self.colors[at], &self.colors[at + 1]);
        let (c, d) = (&self.colors[at + n], &self.colors[at + n + 1]);
        let mut out = [0.0; 3];
        for k in 0..3 {
            let upper = a[k] + (b[k] - a[k]) * tx;
            let lower = c[k] + (d[k] - c[k]) * tx;
            out[k] = upper + (lower - upper) * ty;
        }
        out
    }

    /// The haze at (x, y) mm; 0 if the blank is not clear.
    #[inline]
    pub fn haze_at(&self, x: f32, y: f32) -> f32 {
        if self.haze.is_empty() {
            return 0.0;
        }
        let (at, (tx, ty)) = self.place(x, y);
        let (h, n) = (&self.haze, self.grid.n());
        let upper = h[at] + (h[at + 1] - h[at]) * tx;
        let lower = h[at + n] + (h[at + n + 1] - h[at + n]) * tx;
        upper + (lower - upper) * ty
    }

    /// The cell up and left of a place, and how far beyond its middle the place lies.
    #[inline]
    fn place(&self, x: f32, y: f32) -> (usize, (f32, f32)) {
        let grid = &self.grid;
        let (radius, cell, n) = (grid.disc().radius(), grid.cell(), grid.n());
        // A little inside the rim all four cells about a place lie on the disc.
        let most = radius - 1.5 * cell;
        let r2 = x * x + y * y;
        let pull = if r2 > most * most { most / r2.sqrt() } else { 1.0 };
        let u = ((x * pull + radius) / cell - 0.5).clamp(0.0, n as f32 - 1.001);
        let v = ((radius - y * pull) / cell - 0.5).clamp(0.0, n as f32 - 1.001);
        let (i, j) = (u as usize, v as usize);
        (j * n + i, (u - i as f32, v - j as f32))
    }
}
