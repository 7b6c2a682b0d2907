//! Accents as rounded lumps: frit that has been tacked on, its edges drawn in by the heat.

use crate::base::scalar::{Bounds, fast_pow};
use crate::color::srgb::Linear;
use crate::fuse::tack::Stands;
use crate::layup::accents::Accent;

/// An accent and its colors, on what lies under it.
#[derive(Clone, Copy, Debug)]
pub struct Lump {
    /// Where it lies and how wide it is.
    pub accent: Accent,
    /// How wide and high its tack fuse leaves it.
    pub stands: Stands,
    /// By the light it sends back.
    pub shown: Linear,
    /// By the light that comes through.
    pub through: Linear,
    /// Share of light along the normal that its own glass neither absorbs nor scatters.
    pub straight: f32,
}

impl Lump {
    /// Half width of the lump, mm.
    pub fn radius(&self) -> f32 {
        self.stands.radius
    }

    /// Its height, mm.
    pub fn height(&self) -> f32 {
        self.stands.height
    }

    /// What share it keeps, in one channel, of the light that comes through `under` it, where so much of its glass lies as a
    /// share of the most (Beer and Lambert's law between none and most).
    #[inline]
    pub fn keeps(&self, under: Linear, channel: usize, height: f32) -> f32 {
        let most = (self.through[channel] / under[channel].at_least(1e-4)).clamp(1e-4, 4.0);
        fast_pow(most, height)
    }

    /// At a place on the disc that it covers: its outward slope there, and how much of its glass lies under the place, as a
    /// share of the most.
    pub fn over(&self, x: f32, y: f32) -> Option<((f32, f32), f32)> {
        let (dx, dy) = (x - self.accent.x, y - self.accent.y);
        let a = self.radius();
        let rho2 = (dx * dx + dy * dy) / (a * a);
        if rho2 >= 1.0 {
            return None;
        }
        let height = (1.0 - rho2).sqrt();
        let steep = self.height() / (a * a) / height.at_least(0.15);
        Some(((dx * steep, dy * steep), height))
    }
}
