//! A glass as it stands on the shelf: its optics, and what heat, scales and neighbors have to know of it.

use super::material::Material;
use super::tile::Tile;
use crate::base::data::data;
use crate::base::units::{Celsius, Mm};
use serde::{Deserialize, Serialize};

/// Density of glass, g/cm³: soda-lime glass as EN 572-1 gives it; colored glasses differ a little.
pub const DENSITY: f64 = 2.5;
/// Thermal expansion of a glass that is sold for fusing, 1e-6/K: common practice, no source.
pub const EXPANSION: f64 = 9.0;
/// Softening point of such a glass: common practice, no source.
pub const SOFTENING: Celsius = Celsius(680.0);
/// Annealing point of such a glass: common practice, no source.
pub const ANNEALING: Celsius = Celsius(510.0);
/// Mean grain of a powder by sieve: common practice, no source.
pub const GRAIN: Mm = Mm(0.08);

data! {
    /// A glass.
    pub struct Glass {
        /// What recipes call it, for good.
        pub id: String,
        /// What the maker calls it.
        pub name: String,
        /// Whether it is sheet.
        #[serde(default)]
        pub sheet: bool,
        /// Whether it is powder and frit.
        #[serde(default)]
        pub powder: bool,
        /// Its optics, fired.
        pub material: Material,
        /// Back-scatter per mm that fine bubbles add when its powder is fired.
        #[serde(default)]
        pub milkiness: f64,
        /// Mean grain of its powder by sieve: a bed much thinner than this lies as scattered specks.
        #[serde(default = "grain")]
        pub grain: Mm,
        /// Share of its sifted bed that is glass; that of the recipe if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub packing: Option<f64>,
        /// Density, g/cm³.
        #[serde(default = "density")]
        pub density: f64,
        /// Thermal expansion, 1e-6/K.
        #[serde(default = "expansion")]
        pub expansion: f64,
        /// Softening point: 10^6.65 Pa s.
        #[serde(default = "softening")]
        pub softening: Celsius,
        /// Annealing point: 10^12 Pa s.
        #[serde(default = "annealing")]
        pub annealing: Celsius,
        /// What colors it, where that may react with a neighbor; nothing if left out.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub families: Vec<Family>,
        /// Whether its color comes only when it is held hot.
        #[serde(default)]
        pub strikes: bool,
        /// How its optics are known.
        #[serde(default)]
        pub source: Source,
    }
}

fn grain() -> Mm {
    GRAIN
}

fn density() -> f64 {
    DENSITY
}

fn expansion() -> f64 {
    EXPANSION
}

fn softening() -> Celsius {
    SOFTENING
}

fn annealing() -> Celsius {
    ANNEALING
}

data! {
    /// What colors a glass, as far as neighbors mind (Weyl 1951, Coloured Glasses, from memory).
    #[derive(Copy, Eq)]
    pub enum Family {
        /// Iron.
        Iron,
        /// Sulfur or selenium.
        Sulfur,
        /// Copper.
        Copper,
        /// Lead.
        Lead,
        /// Silver.
        Silver,
    }
}

data! {
    /// How the optics of a glass are known.
    #[derive(Default)]
    pub enum Source {
        /// They are invented: demo data, or a copy of it.
        #[default]
        Invented,
        /// Somebody measured and published them.
        Measured {
            /// Where.
            published: String,
        },
        /// They are fitted to fired test tiles.
        Tiles(Vec<Tile>),
    }
}

impl Glass {
    /// A glass of these optics, all else as usual for one that is sold for fusing; neither sheet nor powder yet.
    pub fn new(id: &str, name: &str, material: Material) -> Self {
        Self {
            id: id.into(),
            name: name.into(),
            sheet: false,
            powder: false,
            material,
            milkiness: 0.0,
            grain: GRAIN,
            packing: None,
            density: DENSITY,
            expansion: EXPANSION,
            softening: SOFTENING,
            annealing: ANNEALING,
            families: Vec::new(),
            strikes: false,
            source: Source::default(),
        }
    }

    /// The grain of its loose powder as light sees it, mm: half of what the sieve says, since a powder holds much that is finer.
    pub fn optical_grain(&self) -> f32 {
        self.grain.f32() / 2.0
    }

    /// What its powder fires to.
    pub fn fired_powder(&self) -> Material {
        self.material.milkier(self.milkiness as f32)
    }
}
