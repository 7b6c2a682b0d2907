//! The color of one column of powder and glass: swatches, and the strip of a test tile from thin to thick.

use crate::recipe::plan::Plan;

/// An 8-bit sRGB color.
pub type Color = [u8; 3];

/// A coat's powder on this blank: loose as sifted, and fired, each at the coat's own depth, over what lies under it.
pub fn swatch(_plan: &Plan, _coat: u32) -> Option<(Color, Color)> {
    Some(([200, 150, 110], [150, 90, 40]))
}

/// The blank's own color by day: bare, before and after firing (the same).
pub fn blank_swatch(_plan: &Plan) -> Color {
    [240; 3]
}

/// The fired color of a coat's powder at each depth (mm of loose powder), over what lies under it. `within`: as lit
/// from behind instead of by day.
pub fn strip(_plan: &Plan, _coat: u32, depths: &[f32], _within: bool) -> Vec<Color> {
    depths.iter().map(|_| [150, 90, 40]).collect()
}
