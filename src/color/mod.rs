//! Color: sRGB at the edge, CIE L*a*b* and the difference of two colors, and the bands light is computed in.

pub mod dichromacy;
pub mod difference;
pub mod illuminant;
mod lamp_table;
pub mod spectrum;
pub mod srgb;
pub mod toward;
pub mod typed;
