//! A test tile: powder sifted on a base, fired, and its color read.

use crate::base::data::data;
use crate::base::units::Mm;
use crate::color::difference::Lab;
use serde::{Deserialize, Serialize};

data! {
    /// A fired test tile.
    pub struct Tile {
        /// How much powder lay on it.
        pub sifted: Sifted,
        /// What it was fired on.
        pub over: Over,
        /// Its color, a perfect white being L* 100, surface gloss left out.
        pub color: Lab,
        /// How far the pixels of a photo lie about that color, CIEDE2000; none if the color was typed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub spread: Option<f64>,
    }
}

data! {
    /// How much powder was sifted.
    #[derive(Copy)]
    pub enum Sifted {
        /// So deep, loose.
        Loose(Mm),
        /// Weighed.
        Weighed {
            /// Powder that lay on the tile, g: what fell beside it is not counted.
            grams: f64,
            /// On this area, cm².
            area: f64,
        },
    }
}

data! {
    /// What a tile was fired on.
    #[derive(Copy, Eq)]
    pub enum Over {
        /// An opaque white: it tells what the glass absorbs.
        White,
        /// An opaque black: it tells what the glass scatters.
        Black,
    }
}

/// What a jar's powder is like, as far as its tiles ask.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Powder {
    /// Share of the sifted bed that is glass, 0.3 to 0.65.
    pub packing: f64,
    /// Density of the glass, g/cm³, 2 to 6.
    pub density: f64,
    /// Back-scatter of the fired powder per mm of glass (Kubelka-Munk S), 0 to 20, as the maker takes it to be: 0 for a transparent
    /// glass. A tile over black tells it instead.
    pub milkiness: f64,
}

impl Sifted {
    /// Depth of loose powder, mm: grams on an area over packing and density.
    pub fn loose(self, powder: &Powder) -> f64 {
        match self {
            Self::Loose(depth) => depth.0,
            Self::Weighed { grams, area } => 10.0 * grams / (area * powder.packing * powder.density),
        }
    }
}

impl Tile {
    /// How thick the fired glass is, mm.
    pub fn thickness(&self, powder: &Powder) -> f64 {
        powder.packing * self.sifted.loose(powder)
    }
}
