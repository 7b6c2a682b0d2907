//! Accents as rounded lumps: frit that has been tacked on, its edges drawn in by the heat.

use crate::color::srgb::Linear;
use crate::layup::accents::Accent;

/// An accent and its colors, on what lies under it.
#[derive(Clone, Copy, Debug)]
pub struct Lump {
    /// Where it lies and how wide it is.
    pub accent: Accent,
    /// By the light it sends back.
    pub shown: Linear,
    /// By the light that comes through.
    pub through: Linear,
}

/// Height of a lump above the disc, in half widths: a grain that has slumped into a button. No source.
pub const HEIGHT: f32 = 0.64;
/// How far its foot spreads, in half widths.
pub const FOOT: f32 = 1.06;

impl Lump {
    /// Half width of the lump, mm.
    pub fn radius(&self) -> f32 {
        0.5 * self.accent.size * FOOT
    }

    /// Its height, mm.
    pub fn height(&self) -> f32 {
        0.5 * self.accent.size * HEIGHT
    }

    /// Mean glass in a lump of this size, mm: what its color is computed for (two thirds of its height).
    pub fn mean_glass(size: f32) -> f32 {
        0.5 * size * HEIGHT * 2.0 / 3.0
    }
}
