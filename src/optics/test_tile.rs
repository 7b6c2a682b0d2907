//! The color of one column of powder and glass: swatches, and the strip of a test tile from thin to thick. Cheap
//! enough for the page's own thread: nothing is baked.

use super::colors::{CLEAR_FROM, TABLE, WHITE, lamp_for};
use super::kubelka_munk;
use super::layer::Layer;
use super::loose_powder::grain_layer;
use super::stack::{Lit, Seen};
use crate::base::scalar::lerp;
use crate::color::spectrum::{BANDS, Spectrum, to_linear};
use crate::color::srgb::{Linear, encode, pull_in};
use crate::recipe::Fall;
use crate::recipe::plan::{Plan, PlannedCoat};

/// An 8-bit sRGB color.
pub type Color = [u8; 3];

/// A coat's powder on this blank: loose as sifted, and fired, each at the coat's own depth, over what lies under it.
/// None if there is no such coat.
pub fn swatch(plan: &Plan, coat: u32) -> Option<(Color, Color)> {
    let at = position(plan, coat)?;
    let depth = plan.coats[at].usual_depth();
    let mut shown = Column::blank(plan).shows();
    for coat in &plan.coats[..=at] {
        lay_loose(&mut shown, coat, plan.packing);
    }
    Some((shown_color(&shown), fired(plan, at, depth, false)))
}

/// The blank's own color by day, the same before and after firing.
pub fn blank_swatch(plan: &Plan) -> Color {
    shown_color(&Column::blank(plan).shows())
}

/// The fired color of a coat's powder at each depth (mm of loose powder), over what lies under it; `within`, as lit
/// from behind instead of by day. Empty if there is no such coat.
pub fn strip(plan: &Plan, coat: u32, depths: &[f32], within: bool) -> Vec<Color> {
    let Some(at) = position(plan, coat) else { return Vec::new() };
    depths.iter().map(|depth| fired(plan, at, *depth, within)).collect()
}

/// Whether one sees through the blank.
pub fn is_clear(plan: &Plan) -> bool {
    let sheets = Column::blank(plan).0;
    sheets.iter().map(|(layer, _)| layer.unscattered[BANDS / 2]).product::<f32>() > CLEAR_FROM
}

/// The fired color, by day and in linear light, of a lower coat on the blank and of an upper coat over it, each at its
/// usual depth. Both are places in the plan's list of coats.
pub fn fired_pair(plan: &Plan, lower: usize, upper: usize) -> (Linear, Linear) {
    let mut column = Column::blank(plan);
    let mut lay = |at: usize| {
        let coat = &plan.coats[at];
        column.lay(coat, plan.packing * coat.usual_depth());
        to_linear(&column.shows())
    };
    (lay(lower), lay(upper))
}

fn position(plan: &Plan, coat: u32) -> Option<usize> {
    plan.coats.iter().position(|planned| planned.sift.id == coat)
}

/// The sheets, the coats below number `at` at their usual depth, and that one at `depth` mm.
fn column(plan: &Plan, at: usize, depth: f32) -> Column {
    let mut column = Column::blank(plan);
    for (i, coat) in plan.coats[..=at].iter().enumerate() {
        column.lay(coat, plan.packing * if i == at { depth } else { coat.usual_depth() });
    }
    column
}

fn fired(plan: &Plan, at: usize, depth: f32, within: bool) -> Color {
    let column = column(plan, at, depth);
    if within {
        let lamp = lamp_for(to_linear(&Column::blank(plan).passes()));
        encode(pull_in(to_linear(&column.passes()).map(|c| c * lamp)))
    } else {
        shown_color(&column.shows())
    }
}

fn shown_color(spectrum: &Spectrum) -> Color {
    encode(pull_in(to_linear(spectrum)).map(|c| c * WHITE))
}

/// Layers of fired glass, bottom to top.
struct Column(Vec<(Layer, bool)>);

impl Column {
    fn blank(plan: &Plan) -> Self {
        let sheet = |sheet: &crate::recipe::plan::PlannedSheet| {
            let material = &sheet.glass.material;
            (Layer::of(material, sheet.thickness.into()), material.scatters())
        };
        Self(plan.sheets.iter().map(sheet).collect())
    }

    fn lay(&mut self, coat: &PlannedCoat, thickness: f32) {
        let material = &coat.blend.material;
        self.0.push((Layer::of(material, thickness.into()), material.scatters()));
    }

    fn shows(&self) -> Spectrum {
        let mut seen = Seen::ground(TABLE);
        for (layer, scatters) in &self.0 {
            seen.lay::<true>((layer, layer, 0.0), *scatters);
        }
        seen.shows::<true>(TABLE)
    }

    fn passes(&self) -> Spectrum {
        let mut lit = Lit::lamp();
        for (layer, scatters) in &self.0 {
            lit.lay::<true>((layer, layer, 0.0), *scatters);
        }
        lit.shows::<true>()
    }
}

fn lay_loose(shown: &mut Spectrum, coat: &PlannedCoat, packing: f32) {
    let blend = &coat.blend;
    let grains = f64::from(coat.usual_depth() / blend.grain);
    for band in 0..BANDS {
        let grain = grain_layer(f64::from(blend.material.absorption[band] * blend.grain), packing.into());
        let (r, t) = kubelka_munk::layer(grain.k * grains, grain.s * grains);
        let (r, t) = (r as f32, t as f32);
        shown[band] = r + t * t * shown[band] / (1.0 - r * shown[band]);
    }
}

impl PlannedCoat {
    /// The depth a swatch of this coat stands for, mm of loose powder.
    fn usual_depth(&self) -> f32 {
        match &self.sift.fall {
            Fall::ThickAndThin(range) => lerp(range.thinnest.f32(), range.thickest.f32(), 0.3),
            Fall::Even { .. } | Fall::Patches(_) => self.sift.depth(),
        }
    }
}
