//! What the checks of columns share: recipes with known layers, and what such a column shows and passes.

use super::haze::{self, Bed, Grains, Model, Slab};
use dappledome::base::scalar::pow;
use dappledome::base::units::Mm;
use dappledome::color::spectrum::{BANDS, WAVELENGTHS, WEIGHTS};
use dappledome::glass::catalogue::find;
use dappledome::optics::colors::{TABLE, WHITE};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Coat, Fall, Part, Patches, Recipe, Sheet, ThickAndThin};

/// Absorption and scatter of every band, per mm, and the size of the grains, mm.
pub struct Glass {
    absorption: [f64; BANDS],
    scatter: [f64; BANDS],
    grain: f64,
}

impl Glass {
    /// A blend of glasses of the shelf, each with its parts; grains all have one size there.
    pub fn of(parts: &[(&str, f64)]) -> Self {
        let all: f64 = parts.iter().map(|(_, part)| part).sum();
        let mut blend = Self { absorption: [0.0; BANDS], scatter: [0.0; BANDS], grain: 0.0 };
        for (id, part) in parts {
            let glass = find(id).expect("a glass of the shelf");
            for band in 0..BANDS {
                blend.absorption[band] += part / all * f64::from(glass.material.absorption[band]);
                blend.scatter[band] += part / all * f64::from(glass.material.scatter[band]);
            }
            blend.grain += part / all * f64::from(glass.optical_grain());
        }
        blend
    }

    /// So many mm of it in one band.
    pub fn slab(&self, band: usize, thickness: f64) -> Slab {
        let (absorption, scatter) = (self.absorption[band], self.scatter[band]);
        Slab { absorption, scatter, thickness, model: Model::Engine }
    }
}

/// A column of fired glass, bottom first: each layer with its thickness in mm.
#[derive(Default)]
pub struct Column(Vec<(Glass, f64)>);

impl Column {
    /// Of these glasses.
    pub fn of(layers: &[(&str, f64)]) -> Self {
        Self(layers.iter().map(|(id, thickness)| (Glass::of(&[(id, 1.0)]), *thickness)).collect())
    }

    /// One more layer on it.
    pub fn with(mut self, glass: Glass, thickness: f64) -> Self {
        self.0.push((glass, thickness));
        self
    }

    fn each_band(&self, light: impl Fn(&[Slab], usize) -> f64) -> [f64; BANDS] {
        std::array::from_fn(|band| {
            let slabs: Vec<Slab> =
                self.0.iter().map(|(glass, thickness)| glass.slab(band, *thickness)).collect();
            light(&slabs, band)
        })
    }

    /// Linear sRGB of what it shows on a ground.
    pub fn look(&self, ground: f64) -> [f64; 3] {
        linear(self.each_band(|slabs, _| haze::look(slabs, ground)))
    }

    /// Linear sRGB of what it shows on an opaque base, grown together with it.
    pub fn look_on_base(&self, base: f64) -> [f64; 3] {
        linear(self.each_band(|slabs, _| haze::look_on_base(slabs, base)))
    }

    /// Linear sRGB of what it passes.
    pub fn pass(&self) -> [f64; 3] {
        linear(self.passes())
    }

    /// What it passes, band by band.
    pub fn passes(&self) -> [f64; BANDS] {
        self.each_band(|slabs, band| haze::pass(slabs, Model::Engine.normal(WAVELENGTHS[band].into())))
    }
}

/// Reflectance of the table.
pub fn table() -> f64 {
    f64::from(TABLE)
}

/// Loose powder on glass, band by band.
#[derive(Clone, Copy)]
pub struct Beds([Bed; BANDS]);

impl Beds {
    /// On a column of glass that lies on this ground.
    pub fn on(column: &Column, ground: f64) -> Self {
        Self(column.each_band(|slabs, _| haze::look(slabs, ground)).map(Bed::on))
    }

    /// So many mm of a glass's powder on it, packed so.
    pub fn with(self, glass: &Glass, depth: f64, packing: f64) -> Self {
        self.with_grains(glass, glass.grain, depth, packing)
    }

    /// The same with grains of this size in mm.
    pub fn with_grains(self, glass: &Glass, size: f64, depth: f64, packing: f64) -> Self {
        Self(std::array::from_fn(|band| {
            let (absorption, scatter) = (glass.absorption[band], glass.scatter[band]);
            self.0[band].with(&Grains { absorption, scatter, size, packing }, depth)
        }))
    }

    /// Linear sRGB of what it shows.
    pub fn look(&self) -> [f64; 3] {
        linear(self.0.map(|bed| bed.look()))
    }

    /// What they pass of light that comes through below them.
    pub fn passes(&self, through: [f64; BANDS]) -> [f64; BANDS] {
        std::array::from_fn(|band| self.0[band].passes() * through[band])
    }
}

/// The bands' sum, with the published weights.
pub fn linear(spectrum: [f64; BANDS]) -> [f64; 3] {
    WEIGHTS.map(|weights| (0..BANDS).map(|band| f64::from(weights[band]) * spectrum[band]).sum())
}

/// 8-bit codes of linear light, a color beyond sRGB drawn toward its own gray until no channel is negative (IEC 61966-2-1;
/// luminance by ITU-R BT.709).
pub fn codes(color: [f64; 3], scale: f64) -> [f64; 3] {
    let gray = luminance(color).max(0.0);
    let least = color.iter().copied().fold(f64::INFINITY, f64::min);
    let keep = if least < 0.0 { gray / (gray - least) } else { 1.0 };
    color.map(|channel| {
        let light = ((gray + (channel - gray) * keep) * scale).clamp(0.0, 1.0);
        let shown = if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * pow(light, 1.0 / 2.4) - 0.055 };
        255.0 * shown
    })
}

/// Codes of what is seen by day.
pub fn by_day(color: [f64; 3]) -> [f64; 3] {
    codes(color, f64::from(WHITE))
}

/// Luminance of linear light (ITU-R BT.709).
pub fn luminance([r, g, b]: [f64; 3]) -> f64 {
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Fails if 8-bit codes are more than one off, the rounding included.
#[track_caller]
pub fn same(what: &str, got: [u8; 3], want: [f64; 3]) {
    for channel in 0..3 {
        assert!((f64::from(got[channel]) - want[channel]).abs() <= 1.0, "{what}: {got:?}, not {want:?}");
    }
}

/// Fails if linear colors are further apart than this.
#[track_caller]
pub fn near(what: &str, got: [f32; 3], want: [f64; 3], tolerance: f64) {
    for channel in 0..3 {
        let off = (f64::from(got[channel]) - want[channel]).abs();
        assert!(off <= tolerance, "{what}: {got:?}, not {want:?} (within {tolerance})");
    }
}

/// A recipe of these sheets and coats.
pub fn recipe(sheets: &[(&str, f64)], coats: Vec<Coat>) -> Recipe {
    let mut recipe = Recipe::bare();
    let sheet = |(glass, mm): &(&str, f64)| Sheet { glass: (*glass).into(), thickness: Mm(*mm) };
    recipe.blank.sheets = sheets.iter().map(sheet).collect();
    recipe.coats = coats;
    recipe.packing = 0.4;
    recipe
}

/// Its plan.
pub fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).unwrap_or_else(|notices| panic!("{notices:?}")).plan
}

/// A coat as deep everywhere.
pub fn even(id: u32, glass: &str, depth: f64) -> Coat {
    Coat::new(id, glass, Fall::Even { depth: Mm(depth) })
}

/// A coat of patches on this share of the disc.
pub fn patches(id: u32, glass: &str, depth: f64, coverage: f64) -> Coat {
    Coat::new(id, glass, Fall::Patches(Patches { depth: Mm(depth), coverage, ..Patches::usual() }))
}

/// A coat thick here and thin there.
pub fn thick_and_thin(id: u32, glass: &str, thinnest: f64, thickest: f64) -> Coat {
    let range = ThickAndThin { thinnest: Mm(thinnest), thickest: Mm(thickest), ..ThickAndThin::usual() };
    Coat::new(id, glass, Fall::ThickAndThin(range))
}

/// The same coat of a blend.
pub fn blended(mut coat: Coat, parts: &[(&str, f64)]) -> Coat {
    coat.powder = parts.iter().map(|(glass, parts)| Part { glass: (*glass).into(), parts: *parts }).collect();
    coat
}
