//! The glasses of a piece, baked, and the color of every cell of its bed or of the fused disc.

use super::baked::BakedLayer;
use super::colors::{ColorField, LAMP, TABLE, lamp_for};
use super::edge::{Band, Edge};
use super::film::Film;
use super::layer::Layer;
use super::loose_powder::{Loose, Powder, PowderLayer};
use super::stack::{Lit, Seen};
use super::table::{Between, Table};
use crate::base::lanes::{Four, LANES, Number, load};
use crate::base::scalar::{Bounds, exp2, log2};
use crate::color::illuminant::Illuminant;
use crate::color::spectrum::{BANDS, Spectrum, weighed};
use crate::color::srgb::Linear;
use crate::fuse::settle::FusedDisc;
use crate::fuse::speckle::Speckle;
use crate::glass::material::Material;
use crate::layup::field::hash;
use crate::layup::powder_bed::PowderBed;
use crate::recipe::Side;
use crate::recipe::plan::{Blend, Plan};
use std::sync::OnceLock;

/// What the colors of a piece depend on: its glasses and how deep they can lie, not where.
#[derive(Clone, Debug, PartialEq)]
pub struct PaletteInputs {
    /// Sheets, bottom to top: glass and thickness in mm.
    pub sheets: Vec<(Material, f32)>,
    /// The blends of the coats and the coats' numbers.
    pub coats: Vec<(u32, Blend)>,
    /// The deepest a coat can lie, loose, mm.
    pub deepest: f32,
    /// What light they are seen in.
    pub seen_in: Illuminant,
}

impl PaletteInputs {
    /// The part of a plan that colors depend on, seen by daylight.
    pub fn of(plan: &Plan) -> Self {
        Self {
            sheets: plan.sheets.iter().map(|s| (s.glass.material.clone(), s.thickness)).collect(),
            coats: plan.coats.iter().map(|coat| (coat.sift.id, coat.blend.clone())).collect(),
            deepest: a_little_deeper(plan.deepest_coat()),
            seen_in: Illuminant::Daylight,
        }
    }

    /// The same in another light.
    #[must_use]
    pub fn seen_in(self, light: Illuminant) -> Self {
        Self { seen_in: light, ..self }
    }
}

/// A piece in the mean, for what it lights and shades.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passed {
    /// Light that comes through.
    pub through: Linear,
    /// Light that its inside sends back.
    pub inside: Linear,
    /// Share of what comes through that was scattered on its way.
    pub haze: f32,
}

/// The next of the depths that grow by a fifth each: while a depth is dragged, its tables mostly stay.
fn a_little_deeper(depth: f32) -> f32 {
    const STEPS: f32 = 4.0;
    exp2((log2(depth) * STEPS).floor_of() / STEPS + 1.0 / STEPS)
}

/// How much deeper than the deepest coat the tables reach: speckle can pile up a little more.
const DEEPER: f32 = 1.5;
/// Glass thinner than this, mm, is left out of a column: a hundredth of a color's step.
const NOTHING: f32 = 1e-5;

/// The glasses of a piece, baked.
#[derive(Debug)]
pub struct Palette {
    inputs: PaletteInputs,
    /// Of each band in the light that the piece is seen in.
    weights: &'static [Spectrum; 3],
    sheets: Vec<(Layer, bool)>,
    fired: Vec<BakedLayer>,
    /// Baked when loose powder is first looked at: a depth that is dragged in a fired piece does not wait for it.
    loose: OnceLock<Vec<Table<PowderLayer>>>,
    clear: bool,
    /// Whether what the sponge put back of a coat may be counted to that coat: where nothing scatters the order does not
    /// matter, and a single coat lies under its own powder.
    one_layer: bool,
}

/// A stack of sheets passing more straight light than this (in the middle of the spectrum) counts as clear (a judgment).
const CLEAR_FROM: f32 = 0.01;

/// Whether one sees through a stack of sheets.
pub(super) fn is_clear<'a>(sheets: impl IntoIterator<Item = &'a Layer>) -> bool {
    sheets.into_iter().map(Layer::straight_share).product::<f32>() > CLEAR_FROM
}

impl Palette {
    /// Bakes the glasses of a piece.
    pub fn new(inputs: &PaletteInputs) -> Self {
        let sheets: Vec<(Layer, bool)> = inputs
            .sheets
            .iter()
            .map(|(material, x)| (Layer::of(material, (*x).into()), material.scatters()))
            .collect();
        let bake = |blend: &Blend| BakedLayer::new(&blend.material, inputs.deepest * blend.packing * DEEPER);
        let fired: Vec<BakedLayer> = inputs.coats.iter().map(|(_, blend)| bake(blend)).collect();
        Self {
            one_layer: fired.len() == 1 || !fired.iter().any(|layer| layer.scatters),
            fired,
            loose: OnceLock::new(),
            clear: is_clear(sheets.iter().map(|(layer, _)| layer)),
            weights: inputs.seen_in.weights(),
            inputs: inputs.clone(),
            sheets,
        }
    }

    fn baked_loose(&self) -> &[Table<PowderLayer>] {
        let PaletteInputs { coats, deepest, .. } = &self.inputs;
        let bake = |(_, blend): &(u32, Blend)| {
            Powder::new(&blend.material, blend.grain, blend.packing).baked(deepest * DEEPER)
        };
        self.loose.get_or_init(|| coats.iter().map(bake).collect())
    }

    /// Linear sRGB of a spectrum in the light that the piece is seen in.
    #[inline]
    fn linear(&self, spectrum: &Spectrum) -> Linear {
        weighed(self.weights, spectrum)
    }

    /// Whether one sees through the blank.
    pub fn is_clear(&self) -> bool {
        self.clear
    }

    /// The blank itself on a ground of this reflectance, nothing on it.
    pub fn bare(&self, ground: f32) -> Linear {
        self.linear(&self.sheets_seen(ground).shows())
    }

    /// The light that comes through the blank itself, nothing on it.
    pub fn bare_through(&self) -> Linear {
        self.linear(&self.sheets_lit().shows())
    }

    /// The lamp that the piece is lit by from within, as bright as suits its bare blank.
    pub fn lamp(&self) -> Linear {
        lamp_for(self.inputs.seen_in.lamp().unwrap_or(LAMP), self.bare_through())
    }

    /// The edges of the sheets, on a piece with its powder on this side that passes this much of the light inside.
    pub fn edge(&self, powder: Side, passed: Linear) -> Edge {
        let sheets = &self.inputs.sheets;
        let thickness: f32 = sheets.iter().map(|(_, x)| x).sum();
        // The first sheet lies inside, unless the powder does.
        let outward: Vec<_> = match powder {
            Side::Out => sheets.iter().collect(),
            Side::In => sheets.iter().rev().collect(),
        };
        let mut bands = Vec::with_capacity(outward.len());
        let (mut upto, mut beyond_opal) = (0.0, false);
        let tint = if self.clear { hue(passed, self.bare_through()) } else { [1.0; 3] };
        for (material, x) in outward {
            upto += x / thickness;
            let [shown, through] = if beyond_opal && !material.scatters() {
                // What shines into it is the opal sheet: by day as that sheet looks, lit as much as passes that.
                let (day, within) = EDGE_BEYOND_OPAL;
                [self.bare(TABLE).map(|c| day * c), passed.map(|c| within * c)]
            } else {
                let [shown, through] = edge_of(material, self.clear, |spectrum| self.linear(spectrum));
                let tinted = |color: Linear| [0, 1, 2].map(|k| color[k] * tint[k]);
                // What comes from within meets powder outside only after it has left.
                [tinted(shown), if powder == Side::In { tinted(through) } else { through }]
            };
            beyond_opal |= !self.clear && material.scatters();
            bands.push(Band { upto, shown, through });
        }
        Edge(bands)
    }

    fn sheets_seen(&self, ground: f32) -> Seen {
        let mut seen = Seen::ground(ground);
        for (sheet, scatters) in &self.sheets {
            seen.lay((sheet, sheet, 0.0), *scatters);
        }
        seen
    }

    fn sheets_lit(&self) -> Lit {
        let mut lit = Lit::lamp();
        for (sheet, scatters) in &self.sheets {
            lit.lay((sheet, sheet, 0.0), *scatters);
        }
        lit
    }

    /// Loose powder as it lies, by the light it sends back, on a ground of this reflectance.
    pub fn loose(&self, bed: &PowderBed, ground: f32) -> ColorField {
        let shows = self.sheets_seen(ground).shows();
        self.loose_on(bed, &Loose::on(&shows, &[0.0; BANDS]), &|loose| self.linear(&loose.shows()))
    }

    /// Loose powder as it lies, by the light that comes through.
    pub fn loose_through(&self, bed: &PowderBed) -> ColorField {
        let (shows, passes) = (self.sheets_seen(0.0).shows(), self.sheets_lit().shows());
        self.loose_on(bed, &Loose::on(&shows, &passes), &|loose| self.linear(&loose.passes()))
    }

    fn loose_on(
        &self,
        bed: &PowderBed,
        bare: &Loose,
        color: &(dyn Fn(&Loose) -> Linear + Sync),
    ) -> ColorField {
        let (grid, tables) = (bed.grid, self.baked_loose());
        let speckled = |(id, blend): &(u32, Blend)| {
            (Speckle::loose(blend.sieve, grid.cell(), hash(*id as i32, 0, 3)), blend.packing)
        };
        let powders: Vec<(Speckle, f32)> = self.inputs.coats.iter().map(speckled).collect();
        // The mixture on top is thin: its powders are laid one after the other.
        let planes = bed.coats.iter().zip(0..).chain(bed.put_back.iter().zip(0..));
        let planes: Vec<(&[f32], usize)> = planes.map(|(plane, coat)| (plane.as_slice(), coat)).collect();
        let mut field = ColorField::black(grid);
        grid.fill(&mut field.cells, |row, first, cells| {
            let along: Vec<_> = powders.iter().map(|(speckle, _)| speckle.along(grid.y(row))).collect();
            for (column, four) in (first..).step_by(LANES).zip(cells.chunks_mut(LANES)) {
                let (x, mut loose) = (grid.four_x(column), [*bare; LANES]);
                for (plane, coat) in &planes {
                    let depth = load(&plane[row * grid.n()..][column..grid.n()]);
                    if !depth.any_above(0.0) {
                        continue;
                    }
                    let packing = powders[*coat].1;
                    let layers = tables[*coat].four_at(along[*coat](depth * packing, x) / packing);
                    for ((loose, layer), depth) in loose.iter_mut().zip(layers).zip(depth.to_array()) {
                        if depth > 0.0 {
                            loose.lay(layer);
                        }
                    }
                }
                for (cell, loose) in four.iter_mut().zip(&loose) {
                    *cell = with_haze(color(loose), 0.0);
                }
            }
        });
        field
    }

    /// The fused disc by the light it sends back, on a ground of this reflectance, seen from the powder's side or
    /// from the other one.
    pub fn fired(&self, disc: &FusedDisc, seen_from: Side, ground: f32) -> ColorField {
        let base = self.base_seen(seen_from, ground);
        let shown = |shows: &Spectrum| with_haze(self.linear(shows), 0.0);
        match self.films(seen_from) {
            Some(films) => {
                let color = |film: &Film| shown(&base.shows_under(film));
                self.filmed(disc, &films, |film, layer| film.lay_seen(layer), color)
            }
            None => self.folded(disc, &|i| {
                let mut seen = base;
                self.lay_cell(disc, i, seen_from, |layer, scatters| seen.lay(layer, scatters));
                shown(&seen.shows())
            }),
        }
    }

    /// The fused disc by the light that comes through it, seen from the powder's side or from the other one.
    pub fn through(&self, disc: &FusedDisc, seen_from: Side) -> ColorField {
        let base = self.base_lit(seen_from);
        let color = |lit: &Lit, film: &Film| {
            let passed = lit.shows_under(film);
            let haze = if self.clear { scattered(lit, film, &passed) } else { 0.0 };
            with_haze(self.linear(&passed), haze)
        };
        match self.films(seen_from) {
            Some(films) => {
                self.filmed(disc, &films, |film, layer| film.lay(layer), |film| color(&base, film))
            }
            None => self.folded(disc, &|i| {
                let mut lit = base;
                self.lay_cell(disc, i, seen_from, |layer, scatters| lit.lay(layer, scatters));
                color(&lit, &Film::NONE)
            }),
        }
    }

    /// The coats as films, if they are one on a base that is the same everywhere: they only absorb, and the sheets lie under them.
    fn films(&self, seen_from: Side) -> Option<Vec<&Table<Film>>> {
        let films = || self.fired.iter().map(BakedLayer::film).collect();
        if seen_from == Side::Out { films() } else { None }
    }

    /// A color for each cell by the film that its coats are.
    fn filmed(
        &self,
        disc: &FusedDisc,
        films: &[&Table<Film>],
        lay: impl Fn(&mut Film, Between<Film>) + Sync,
        color: impl Fn(&Film) -> [f32; 4] + Sync,
    ) -> ColorField {
        let (grid, n) = (disc.grid, disc.grid.n());
        let mut field = ColorField::black(grid);
        grid.fill(&mut field.cells, |row, first, cells| {
            for (column, four) in (first..).step_by(LANES).zip(cells.chunks_mut(LANES)) {
                let mut each = [Film::NONE; LANES];
                for (at, film) in films.iter().enumerate() {
                    // Where nothing scatters, what the sponge put back counts to its own coat.
                    let planes = std::iter::once(&disc.coats[at]).chain(disc.mixture.get(at));
                    let glass = planes.map(|plane| load(&plane[row * n..][column..n]));
                    let glass = glass.fold(Four::splat(0.0), |sum, glass| sum + glass);
                    if !glass.any_above(0.0) {
                        continue;
                    }
                    // A film of no glass keeps all light: to lay it costs less than to ask.
                    each.iter_mut().zip(film.four_at(glass)).for_each(|(film, layer)| lay(film, layer));
                }
                for (cell, film) in four.iter_mut().zip(&each) {
                    *cell = color(film);
                }
            }
        });
        field
    }

    /// A color for each cell, by its index.
    fn folded(&self, disc: &FusedDisc, color: &(dyn Fn(usize) -> [f32; 4] + Sync)) -> ColorField {
        let mut field = ColorField::black(disc.grid);
        disc.grid.fill(&mut field.cells, |row, first, cells| {
            let at = row * disc.grid.n() + first;
            cells.iter_mut().zip(at..).for_each(|(cell, at)| *cell = color(at));
        });
        field
    }

    /// What comes through a disc and what its inside sends back, in the mean, with its powder on this side: from every
    /// `STEP`th cell both ways.
    pub fn passed(&self, disc: &FusedDisc, powder: Side) -> Passed {
        const STEP: usize = 8;
        let inside = if powder == Side::Out { Side::In } else { Side::Out };
        let (lit, seen) = (self.base_lit(powder), self.base_seen(inside, 0.0));
        let (mut sums, mut cells) = ([0.0f64; 7], 0.0);
        disc.grid.each(|i, column, row| {
            if column % STEP == 0 && row % STEP == 0 {
                let (mut lit, mut seen) = (lit, seen);
                self.lay_cell(disc, i, powder, |layer, scatters| lit.lay(layer, scatters));
                self.lay_cell(disc, i, inside, |layer, scatters| seen.lay(layer, scatters));
                let passed = lit.shows();
                let ([a, b, c], [d, e, f]) = (self.linear(&passed), self.linear(&seen.shows()));
                for (sum, part) in
                    sums.iter_mut().zip([a, b, c, d, e, f, scattered(&lit, &Film::NONE, &passed)])
                {
                    *sum += f64::from(part);
                }
                cells += 1.0;
            }
        });
        let [a, b, c, d, e, f, haze] = sums.map(|sum| (sum / f64::max(cells, 1.0)) as f32);
        Passed { through: [a, b, c], inside: [d, e, f], haze }
    }

    fn base_seen(&self, seen_from: Side, ground: f32) -> Seen {
        if seen_from == Side::Out { self.sheets_seen(ground) } else { Seen::ground(ground) }
    }

    fn base_lit(&self, seen_from: Side) -> Lit {
        if seen_from == Side::Out { self.sheets_lit() } else { Lit::lamp() }
    }

    /// Lays what one cell holds on a base: the coats on the sheets, or, seen from the other side, coats in reverse and then the sheets.
    #[inline]
    fn lay_cell(
        &self,
        disc: &FusedDisc,
        i: usize,
        seen_from: Side,
        mut lay: impl FnMut(Between<Layer>, bool),
    ) {
        let mut coat = |(at, x): (usize, f32)| lay(self.fired[at].at(x), self.fired[at].scatters);
        match seen_from {
            Side::Out => self.coats(disc, i).for_each(coat),
            Side::In => {
                self.coats(disc, i).rev().for_each(&mut coat);
                for (sheet, scatters) in self.sheets.iter().rev() {
                    lay((sheet, sheet, 0.0), *scatters);
                }
            }
        }
    }

    /// Every layer of coat glass in a cell from the sheets up: which coat, and how many mm. The mixture on top is thin: its
    /// glasses are laid one after the other.
    #[inline]
    fn coats(&self, disc: &FusedDisc, i: usize) -> impl DoubleEndedIterator<Item = (usize, f32)> {
        let put_back = move |at: usize| disc.mixture.get(at).map_or(0.0, |plane| plane[i]);
        let own = move |at: usize| disc.coats[at][i] + if self.one_layer { put_back(at) } else { 0.0 };
        let on_top = if self.one_layer { 0 } else { disc.mixture.len() };
        let coats = (0..disc.coats.len()).map(move |at| (at, own(at))).filter(|(_, x)| *x > 0.0);
        coats.chain((0..on_top).map(move |at| (at, put_back(at))).filter(|(_, x)| *x > NOTHING))
    }

    /// One column of the fused disc with one more layer on the powder: what an accent there looks like from this side, by
    /// the light it sends back on a ground of this reflectance, and by the light that comes through; and the share of light along
    /// the normal that its own glass neither absorbs nor scatters.
    pub fn with_accent(
        &self,
        (disc, cell): (&FusedDisc, usize),
        (material, thickness): (&Material, f32),
        seen_from: Side,
        ground: f32,
    ) -> (Linear, Linear, f32) {
        let (accent, scatters) = (Layer::of(material, thickness.into()), material.scatters());
        let (mut seen, mut lit) = (self.base_seen(seen_from, ground), self.base_lit(seen_from));
        let mut lay = |layer: Between<Layer>, scatters| {
            seen.lay(layer, scatters);
            lit.lay(layer, scatters);
        };
        if seen_from == Side::In {
            lay((&accent, &accent, 0.0), scatters);
        }
        self.lay_cell(disc, cell, seen_from, &mut lay);
        if seen_from == Side::Out {
            lay((&accent, &accent, 0.0), scatters);
        }
        (self.linear(&seen.shows()), self.linear(&lit.shows()), accent.straight_share())
    }
}

/// Length of the way, mm, of light that comes out of the edge of a clear sheet (by eye).
const EDGE_WAY: f32 = 60.0;
/// Share of the light that a clear sheet gathers and sends out of its edge: by day, lit from within in a clear piece, and beside an opal
/// sheet (by path-traced domes).
const EDGE_CLEAR: (f32, f32, f32) = (0.85, 0.55, 0.25);
/// How bright the edge of a clear sheet outside an opal one is next to the face: it gathers daylight from above (by path-traced domes).
const EDGE_BEYOND_OPAL: (f32, f32) = (1.6, 0.5);
/// An opal sheet's edge lit from within, as a share of the light inside (by path-traced domes).
const EDGE_OPAL: f32 = 0.15;

/// The hue that powder gives light which the bare blank passes like `bare`: light in a clear disc meets it on its way to the edge.
fn hue(passed: Linear, bare: Linear) -> Linear {
    let tint = [0, 1, 2].map(|k| passed[k] / bare[k].at_least(1e-3));
    let most = tint[0].at_least(tint[1]).at_least(tint[2]).at_least(1e-3);
    tint.map(|c| c / most)
}

/// What the edge of a sheet looks like by the light it sends back, and by the light that comes out of it.
fn edge_of(material: &Material, clear_piece: bool, linear: impl Fn(&Spectrum) -> Linear) -> [Linear; 2] {
    if material.scatters() {
        let layer = Layer::of(material, EDGE_WAY.into());
        let mut seen = Seen::ground(0.0);
        seen.lay((&layer, &layer, 0.0), true);
        let shown = linear(&seen.shows());
        return [shown, shown.map(|c| EDGE_OPAL * c)];
    }
    let tint = material.absorption.map(|alpha| exp2(-alpha * EDGE_WAY * std::f32::consts::LOG2_E));
    let tint = linear(&tint);
    let (day, all, beside_opal) = EDGE_CLEAR;
    let within = if clear_piece { all } else { beside_opal };
    [tint.map(|c| day * c), tint.map(|c| within * c)]
}

fn with_haze([r, g, b]: Linear, haze: f32) -> [f32; 4] {
    [r, g, b, haze]
}

/// Share of what comes through that was scattered on its way, in the middle of the spectrum.
#[inline]
fn scattered(lit: &Lit, film: &Film, passed: &Spectrum) -> f32 {
    let all = passed[BANDS / 2];
    if all > 1e-6 { (1.0 - lit.straight_through(film, BANDS / 2) / all).clamp(0.0, 1.0) } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a step is the fourth root of 2, 1.1892. The table of a drag from 0.30 to 0.34 mm is one, and none ends before its depth.
    #[test]
    fn tables_reach_a_little_deeper_than_the_deepest_coat() {
        for i in 1..2000 {
            let depth = 0.003 * i as f32;
            let reach = a_little_deeper(depth) / depth;
            assert!(reach > 1.0 - 1e-5 && reach < 1.1893, "{depth} mm: {reach} times as deep");
        }
        assert_eq!(a_little_deeper(0.30), a_little_deeper(0.34));
        assert!((a_little_deeper(0.26) - 0.297_302).abs() < 1e-5, "2 to the power -1.75");
    }
}
