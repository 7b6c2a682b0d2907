//! The color of one column of powder and glass: swatches, and the strip of a test tile from thin to thick. Cheap
//! enough for the page's own thread: nothing is baked.

use super::colors::{LAMP, TABLE, WHITE, lamp_for};
use super::layer::Layer;
use super::loose_powder::{Loose, Powder};
use super::palette;
use super::stack::{Lit, Seen};
use crate::color::difference::{de2000, to_lab};
use crate::color::spectrum::{Spectrum, to_linear};
use crate::color::srgb::{Linear, encode, pull_in};
use crate::glass::kind::Glass;
use crate::glass::material::Material;
use crate::recipe::Fall;
use crate::recipe::plan::{Blend, Plan, PlannedCoat};

/// An 8-bit sRGB color.
pub type Color = [u8; 3];

/// A coat's powder on this blank: loose as sifted, and fired, each at the coat's own depth, over what it mostly lies on.
/// None if there is no such coat.
pub fn swatch(plan: &Plan, coat: u32) -> Option<(Color, Color)> {
    let at = position(plan, coat)?;
    let coat = &plan.coats[at];
    Some(Ground::under(plan, at).coat(&coat.blend, swatch_depth(&coat.sift.fall)))
}

/// What a glass would lie on, worked out once for all glasses that are offered there.
pub struct Ground {
    loose: Loose,
    fired: Seen,
    lit: Lit,
    lamp: Linear,
    packing: f32,
}

impl Ground {
    /// In the place of a coat: on the sheets and the coats that it mostly lies on. On top of all, if there is no such coat.
    pub fn of_coat(plan: &Plan, coat: u32) -> Self {
        Self::under(plan, position(plan, coat).unwrap_or(plan.coats.len()))
    }

    /// On top of all: where the next coat would lie, and the accents.
    pub fn on_all(plan: &Plan) -> Self {
        Self::under(plan, plan.coats.len())
    }

    fn under(plan: &Plan, at: usize) -> Self {
        let mut column = Column::blank(plan);
        let mut loose = Loose::on(&column.shows(), &column.passes());
        for coat in base(plan, at) {
            lay_loose(&mut loose, &grains(&coat.blend), swatch_depth(&coat.sift.fall));
            column.lay(coat, swatch_depth(&coat.sift.fall));
        }
        let lamp = lamp_for(LAMP, to_linear(&Column::blank(plan).passes()));
        Self { loose, fired: column.seen(), lit: column.lit(), lamp, packing: plan.packing }
    }

    /// It fired, by day: what more glass can be laid on.
    pub fn seen(&self) -> Seen {
        self.fired
    }

    /// It fired and lit from behind, and the color of the lamp, linear.
    pub fn lit(&self) -> (Lit, Linear) {
        (self.lit, self.lamp)
    }

    /// A glass as powder on it, so many mm deep: loose, and fired.
    pub fn powder(&self, glass: &Glass, depth: f32) -> (Color, Color) {
        let packing = glass.packing.map_or(self.packing, |own| own as f32);
        let material = glass.fired_powder();
        let powder = Powder::new(&material, glass.optical_grain(), packing);
        self.with(&powder, depth, (&material, packing * depth))
    }

    /// A glass as frit on it: loose, as a single layer of grains of this size in mm, and fired, as a lump with so many mm
    /// of glass in it.
    pub fn frit(&self, glass: &Glass, size: f32, lump: f32) -> (Color, Color) {
        let mut loose = self.loose;
        lay_loose(&mut loose, &Powder::new(&glass.material, size, self.packing), size);
        (shown_color(&loose.shows()), self.fired(&glass.material, lump))
    }

    fn coat(&self, blend: &Blend, depth: f32) -> (Color, Color) {
        self.with(&grains(blend), depth, (&blend.material, blend.packing * depth))
    }

    /// A powder so deep, and the glass that it fires to, in mm.
    fn with(&self, powder: &Powder, depth: f32, (material, thickness): (&Material, f32)) -> (Color, Color) {
        let mut loose = self.loose;
        lay_loose(&mut loose, powder, depth);
        (shown_color(&loose.shows()), self.fired(material, thickness))
    }

    fn fired(&self, material: &Material, thickness: f32) -> Color {
        let (mut seen, layer) = (self.fired, Layer::of(material, thickness.into()));
        seen.lay((&layer, &layer, 0.0), material.scatters());
        shown_color(&seen.shows())
    }
}

/// A glass as one of the blank's sheets, counted from the bottom: by itself on the bench, and in its place in the blank.
/// None if there is no such sheet.
pub fn sheet_swatch(plan: &Plan, at: usize, glass: &Glass) -> Option<(Color, Color)> {
    let thickness = plan.sheets.get(at)?.thickness;
    let alone = (Layer::of(&glass.material, thickness.into()), glass.material.scatters());
    let mut blank = Column::blank(plan);
    blank.0[at] = alone.clone();
    Some((shown_color(&Column(vec![alone]).shows()), shown_color(&blank.shows())))
}

/// The blank's own color by day, the same before and after firing.
pub fn blank_swatch(plan: &Plan) -> Color {
    shown_color(&Column::blank(plan).shows())
}

/// The fired color of a coat's powder at each depth (mm of loose powder), over what it mostly lies on; `within`, as lit
/// from behind instead of by day. Empty if there is no such coat.
pub fn strip(plan: &Plan, coat: u32, depths: &[f32], within: bool) -> Vec<Color> {
    let Some(at) = position(plan, coat) else { return Vec::new() };
    depths.iter().map(|depth| fired(plan, at, *depth, within)).collect()
}

/// Whether one sees through the blank.
pub fn is_clear(plan: &Plan) -> bool {
    palette::is_clear(Column::blank(plan).0.iter().map(|(layer, _)| layer))
}

/// The fired color, by day and in linear light, of a lower coat on the blank and of an upper coat over it, each at its
/// usual depth. Both are places in the plan's list of coats.
pub fn fired_pair(plan: &Plan, lower: usize, upper: usize) -> (Linear, Linear) {
    let mut column = Column::blank(plan);
    let mut lay = |at: usize| {
        let coat = &plan.coats[at];
        column.lay(coat, swatch_depth(&coat.sift.fall));
        to_linear(&column.shows())
    };
    (lay(lower), lay(upper))
}

/// The fired color, by day and in linear light, of coat number `at` over what it mostly lies on, so many mm of loose powder deep.
pub fn fired_at(plan: &Plan, at: usize, depth: f32) -> Linear {
    to_linear(&column(plan, at, depth).shows())
}

/// How much of what lies below shows through so many mm of loose powder, fired: the CIEDE2000 difference between that powder over a
/// perfect white and over a perfect black.
pub fn shows_through(blend: &Blend, depth: f32) -> f64 {
    let layer = Layer::of(&blend.material, (blend.packing * depth).into());
    let [white, black] = [1.0, 0.0].map(|base| {
        let mut seen = Seen::on(base);
        seen.lay((&layer, &layer, 0.0), blend.material.scatters());
        to_lab(to_linear(&seen.shows()))
    });
    de2000(white, black)
}

fn position(plan: &Plan, coat: u32) -> Option<usize> {
    plan.coats.iter().position(|planned| planned.sift.id == coat)
}

/// The coats that a coat mostly lies on, bottom to top, by id.
pub fn lies_on(plan: &Plan, coat: u32) -> Vec<u32> {
    position(plan, coat).into_iter().flat_map(|at| base(plan, at)).map(|coat| coat.sift.id).collect()
}

/// What coat number `at` mostly lies on, of the coats below it: those that cover at least half of the disc, and those that it lies
/// together with. Of other patches that cover less, most of what comes later misses them.
fn base(plan: &Plan, at: usize) -> impl Iterator<Item = &PlannedCoat> {
    let together = plan.coats.get(at).map(|coat| coat.sift.falls_by());
    plan.coats[..at].iter().filter(move |coat| match &coat.sift.fall {
        Fall::Patches(patches) => patches.coverage >= 0.5 || Some(coat.sift.falls_by()) == together,
        Fall::Even { .. } | Fall::ThickAndThin(_) => true,
    })
}

/// The sheets, what coat number `at` mostly lies on at its usual depth, and that coat at `depth` mm.
fn column(plan: &Plan, at: usize, depth: f32) -> Column {
    let mut column = Column::blank(plan);
    for coat in base(plan, at) {
        column.lay(coat, swatch_depth(&coat.sift.fall));
    }
    column.lay(&plan.coats[at], depth);
    column
}

fn fired(plan: &Plan, at: usize, depth: f32, within: bool) -> Color {
    let column = column(plan, at, depth);
    if within {
        let lamp = lamp_for(LAMP, to_linear(&Column::blank(plan).passes()));
        encode(pull_in(times(to_linear(&column.passes()), lamp)))
    } else {
        shown_color(&column.shows())
    }
}

fn times(a: Linear, b: Linear) -> Linear {
    [a[0] * b[0], a[1] * b[1], a[2] * b[2]]
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

    /// Lays a coat, so many mm of loose powder.
    fn lay(&mut self, coat: &PlannedCoat, depth: f32) {
        let material = &coat.blend.material;
        self.0.push((Layer::of(material, (coat.blend.packing * depth).into()), material.scatters()));
    }

    fn seen(&self) -> Seen {
        let mut seen = Seen::ground(TABLE);
        for (layer, scatters) in &self.0 {
            seen.lay((layer, layer, 0.0), *scatters);
        }
        seen
    }

    fn shows(&self) -> Spectrum {
        self.seen().shows()
    }

    fn lit(&self) -> Lit {
        let mut lit = Lit::lamp();
        for (layer, scatters) in &self.0 {
            lit.lay((layer, layer, 0.0), *scatters);
        }
        lit
    }

    fn passes(&self) -> Spectrum {
        self.lit().shows()
    }
}

/// The loose powder of a blend.
fn grains(blend: &Blend) -> Powder {
    Powder::new(&blend.material, blend.grain, blend.packing)
}

/// Lays a loose powder, `depth` mm deep.
fn lay_loose(loose: &mut Loose, powder: &Powder, depth: f32) {
    let layer = powder.layer(depth.into());
    loose.lay((&layer, &layer, 0.0));
}

/// The depth that a swatch of a fall stands for, mm of loose powder.
pub fn swatch_depth(fall: &Fall) -> f32 {
    fall.middling() as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glass::catalogue::{all, find};
    use crate::recipe::demo;

    fn plan(recipe: &crate::recipe::Recipe) -> Plan {
        Plan::new(recipe).expect("it is sound").plan
    }

    #[test]
    fn a_powder_that_is_offered_has_the_color_that_it_then_has() {
        for mut recipe in demo::all() {
            for at in 0..recipe.coats.len() {
                let id = recipe.coats[at].id;
                let ground = Ground::of_coat(&plan(&recipe), id);
                let depth = swatch_depth(&recipe.coats[at].fall);
                for glass in all().iter().filter(|glass| glass.powder) {
                    let offered = ground.powder(glass, depth);
                    recipe.coats[at].powder =
                        vec![crate::recipe::Part { glass: glass.id.clone(), parts: 1.0 }];
                    assert_eq!(Some(offered), swatch(&plan(&recipe), id), "{} at {at}", glass.name);
                }
            }
        }
    }

    #[test]
    fn a_sheet_that_is_offered_has_the_color_that_it_then_has() {
        let mut recipe = demo::ember_walk();
        for at in 0..recipe.blank.sheets.len() {
            for glass in all().iter().filter(|glass| glass.sheet) {
                let (_, there) = sheet_swatch(&plan(&recipe), at, glass).unwrap();
                recipe.blank.sheets[at].glass.clone_from(&glass.id);
                assert_eq!(there, blank_swatch(&plan(&recipe)), "{} at {at}", glass.name);
            }
        }
        assert_eq!(sheet_swatch(&plan(&recipe), 9, &all()[0]), None);
    }

    #[test]
    fn a_coat_is_shown_on_what_it_mostly_lies_on() {
        let mut recipe = demo::ember_walk();
        let fired = |recipe: &crate::recipe::Recipe| swatch(&plan(recipe), recipe.coats[2].id).unwrap().1;
        let on_ground = fired(&recipe);
        let Fall::Patches(patches) = &mut recipe.coats[1].fall else { panic!("its second coat") };
        patches.coverage = 0.6;
        assert_ne!(fired(&recipe), on_ground, "patches on most of the disc are its base");
        recipe.coats.remove(1);
        recipe.coats.insert(1, recipe.coats[1].clone());
        recipe.coats[1].id = 77;
        assert_eq!(fired(&recipe), on_ground, "few patches are not, whatever they are of");
    }

    #[test]
    fn one_powder_differs_by_its_base_and_loose_from_fired() {
        let (ember, shoal) = (plan(&demo::ember_walk()), plan(&demo::all()[1]));
        let rust = find("rust").unwrap();
        let [on_white, on_teal] = [&ember, &shoal].map(|plan| Ground::on_all(plan).powder(rust, 0.3));
        assert_ne!(on_white.1, on_teal.1);
        let luminance = |color: Color| color.iter().map(|part| u32::from(*part)).sum::<u32>();
        assert!(luminance(on_white.0) > luminance(on_white.1), "loose powder is pale");
        let (loose, fired) = Ground::on_all(&ember).frit(rust, 4.0, 0.9);
        assert_ne!(loose, fired);
    }
}
