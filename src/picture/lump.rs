//! Accents as rounded lumps: frit that has been tacked on, its edges drawn in by the heat.

use crate::base::lanes::Number;
use crate::base::scalar::{fast_pow, within};
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
    pub fn keeps<N: Number>(&self, under: N, channel: usize, height: N) -> N {
        let most = N::of(self.through[channel]) / under.at_least(N::of(1e-4));
        height.above(N::of(0.0), fast_pow(within(most, 1e-4, 4.0), height), N::of(1.0))
    }

    /// At places on the disc: its outward slope there, and how much of its glass lies under the place, as a share of the most. None if it
    /// covers no place; where it does not, there lies none of its glass.
    #[inline]
    pub fn over<N: Number>(&self, x: N, y: N) -> Option<((N, N), N)> {
        let (dx, dy) = (x - self.accent.x, y - self.accent.y);
        let a = self.radius();
        let within = -((dx * dx + dy * dy) / (a * a)) + 1.0;
        if !within.any_above(0.0) {
            return None;
        }
        let height = within.at_least(N::of(0.0)).root();
        let steep = N::of(self.height() / (a * a)) / height.at_least(N::of(0.15));
        Some(((dx * steep, dy * steep), height))
    }
}
