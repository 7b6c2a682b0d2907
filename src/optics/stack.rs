//! A stack of layers folded from the bottom up, in optical order, base included.

use super::layer::Layer;
use super::surface;
use crate::base::scalar::lerp;
use crate::color::spectrum::{BANDS, Spectrum};

const K2: f32 = surface::DIFFUSE_INSIDE as f32;
const R0: f32 = surface::NORMAL as f32;

/// What a stack sends back under its top surface, for direct and for bouncing light.
#[derive(Clone, Copy, Debug)]
struct Back {
    direct: Spectrum,
    bounce: Spectrum,
}

/// A stack seen by light from above: what it sends back, and what a clear stack lets straight through.
#[derive(Clone, Copy, Debug)]
pub struct Seen {
    back: Back,
    straight: Spectrum,
    slant: Spectrum,
    unscattered: Spectrum,
}

/// A stack seen against light from below: its transmittance, and what it sends back down.
#[derive(Clone, Copy, Debug)]
pub struct Lit {
    through: Spectrum,
    back: Back,
    straight: Spectrum,
    unscattered: Spectrum,
}

macro_rules! between {
    ($a:expr, $b:expr, $t:expr, $field:ident, $band:expr) => {
        lerp($a.$field[$band], $b.$field[$band], $t)
    };
}

/// Two neighboring layers of a table, and how far between them a layer lies.
type Between<'a> = (&'a Layer, &'a Layer, f32);

impl Back {
    fn on(inside: f32) -> Self {
        Self { direct: [inside; BANDS], bounce: [inside; BANDS] }
    }

    #[inline]
    fn lay(&mut self, (a, b, t): Between, scatters: bool) {
        if scatters {
            for band in 0..BANDS {
                let (direct, bounce) = (between!(a, b, t, direct_t, band), between!(a, b, t, bounce_t, band));
                let (rd, rb) = (between!(a, b, t, direct_r, band), between!(a, b, t, bounce_r, band));
                self.direct[band] = fold(self.direct[band], rd, direct);
                self.bounce[band] = fold(self.bounce[band], rb, bounce);
            }
        } else {
            for band in 0..BANDS {
                let (direct, bounce) = (between!(a, b, t, direct_t, band), between!(a, b, t, bounce_t, band));
                self.direct[band] *= direct * direct;
                self.bounce[band] *= bounce * bounce;
            }
        }
    }
}

impl Seen {
    /// The bottom face of the glass, air below it and then a ground of this reflectance.
    pub fn ground(ground: f32) -> Self {
        Self::on(surface::bottom(ground.into()) as f32)
    }

    /// A base that sends back this share of the light inside the glass.
    pub fn on(inside: f32) -> Self {
        Self {
            back: Back::on(inside),
            straight: [1.0; BANDS],
            slant: [1.0; BANDS],
            unscattered: [1.0; BANDS],
        }
    }

    /// Lays a layer on top, interpolated between two of a table. `CLEAR` keeps track of straight light too.
    #[inline]
    pub fn lay<const CLEAR: bool>(&mut self, layer: Between, scatters: bool) {
        self.back.lay(layer, scatters);
        let (a, b, t) = layer;
        if CLEAR {
            for band in 0..BANDS {
                self.straight[band] *= between!(a, b, t, straight, band);
                self.slant[band] *= between!(a, b, t, slant, band);
                self.unscattered[band] *= between!(a, b, t, unscattered, band);
            }
        }
    }

    /// The spectrum that shows, a perfect white being 1, surface reflection left out (Saunderson 1942, J. Opt. Soc. Am.
    /// 32, 727).
    ///
    /// With `CLEAR`, the straight and the diffuse limit are blended by how much light is scattered (own fit to
    /// Monte Carlo: rms 0.017); `ground` is the reflectance below.
    #[inline]
    pub fn shows<const CLEAR: bool>(&self, ground: f32) -> Spectrum {
        let mut out = [0.0; BANDS];
        for band in 0..BANDS {
            out[band] = (1.0 - K2) * self.back.direct[band] / (1.0 - K2 * self.back.bounce[band]);
        }
        if CLEAR {
            for band in 0..BANDS {
                let t = self.straight[band];
                let normal = (1.0 - R0) * t / (1.0 - R0 * R0 * t * t);
                let diffuse = 0.8396 * self.slant[band];
                let back = 0.0947 + 0.0657 * self.slant[band] * self.slant[band];
                let clear = normal * ground * diffuse / (1.0 - ground * back);
                let w = self.unscattered[band] * self.unscattered[band];
                out[band] = lerp(out[band], clear, w);
            }
        }
        out
    }
}

impl Seen {
    /// The share of light that crosses unscattered, in the middle of the spectrum.
    #[inline]
    pub fn unscattered(&self) -> f32 {
        self.unscattered[BANDS / 2]
    }
}

/// Reflectance of a layer over a ground (Kubelka 1954; Stokes' pile of plates).
#[inline]
fn fold(ground: f32, r: f32, t: f32) -> f32 {
    r + t * t * ground / (1.0 - r * ground)
}

impl Lit {
    /// The bottom face of the glass with diffuse light below it.
    pub fn lamp() -> Self {
        Self {
            through: [1.0 - K2; BANDS],
            back: Back::on(K2),
            straight: [1.0; BANDS],
            unscattered: [1.0; BANDS],
        }
    }

    /// Lays a layer on top, interpolated between two of a table.
    #[inline]
    pub fn lay<const CLEAR: bool>(&mut self, layer: Between, scatters: bool) {
        let (a, b, t) = layer;
        for band in 0..BANDS {
            self.through[band] *= between!(a, b, t, direct_t, band);
        }
        if scatters {
            for band in 0..BANDS {
                self.through[band] /= 1.0 - between!(a, b, t, direct_r, band) * self.back.direct[band];
            }
        }
        self.back.lay(layer, scatters);
        if CLEAR {
            for band in 0..BANDS {
                self.straight[band] *= between!(a, b, t, straight, band);
                self.unscattered[band] *= between!(a, b, t, unscattered, band);
            }
        }
    }

    /// The spectrum that comes through, the lamp's own light being 1. With `CLEAR`, straight and diffuse limit are
    /// blended by how much light is scattered (own fit to Monte Carlo: rms 0.009).
    #[inline]
    pub fn shows<const CLEAR: bool>(&self) -> Spectrum {
        let mut out = [0.0; BANDS];
        for band in 0..BANDS {
            out[band] = (1.0 - R0) * self.through[band] / (1.0 - K2 * self.back.bounce[band]);
        }
        if CLEAR {
            for band in 0..BANDS {
                let t = self.straight[band];
                let clear = (1.0 - R0) * (1.0 - R0) * t / (1.0 - R0 * R0 * t * t);
                out[band] = lerp(out[band], clear, self.unscattered[band]);
            }
        }
        out
    }
}
