//! A stack of layers folded from the bottom up, in optical order, base included. What light is told apart by is in
//! [`super::slab`]; the straight beam's share is known from one running product, taken out at the end, and the exact clear
//! slab put in its place.

use super::layer::Layer;
use super::surface::{self, CONE};
use super::table::Between;
use crate::base::scalar::{Bounds, lerp};
use crate::color::spectrum::{BANDS, Spectrum};

const R0: f32 = surface::NORMAL as f32;
/// What the top face sends back of diffuse light in the cone.
const TOP: f32 = surface::DIFFUSE_OUTSIDE as f32;
/// What the bottom face sends back of it: less, since the straight beam is steeper (own fit to Monte Carlo).
const BOTTOM: f32 = 0.080;
/// What a clear sheet passes of diffuse light, and sends back to a ground below it without and with crossing the glass
/// (Fresnel's formulas over the hemisphere; own fits, 0.003 at most).
const SHEET_DIFFUSE: f32 = 0.8396;
const SHEET_BACK: (f32, f32) = (0.0947, 0.0657);
/// All but nothing of trapped light leaves a bottom face: the rest keeps clear stacks finite.
const TRAPPED_BELOW: f32 = 1.0 - 1e-6;

impl From<&Layer> for Film {
    fn from(layer: &Layer) -> Self {
        Self::of((layer, layer, 0.0))
    }
}

macro_rules! between {
    ($a:expr, $b:expr, $t:expr, $field:ident, $band:expr) => {
        lerp($a.$field[$band], $b.$field[$band], $t)
    };
}

/// Layers that only absorb, on top of each other: what they keep of light in the cone, of trapped light and of a beam along the
/// normal. One after the other they multiply, whatever lies below.
#[derive(Clone, Copy, Debug)]
pub struct Film {
    cone: Spectrum,
    trapped: Spectrum,
    straight: Spectrum,
}

impl Film {
    /// No layer at all.
    pub const NONE: Self = Self { cone: [1.0; BANDS], trapped: [1.0; BANDS], straight: [1.0; BANDS] };

    /// One layer.
    #[inline]
    fn of((a, b, t): Between<Layer>) -> Self {
        let mut film = Self::NONE;
        for band in 0..BANDS {
            film.cone[band] = between!(a, b, t, beam, band);
            film.trapped[band] = between!(a, b, t, pass_trapped, band);
            film.straight[band] = between!(a, b, t, straight, band);
        }
        film
    }

    /// Lays one on top, interpolated between two of a table, to be seen from above: the beam along the normal is left out.
    #[inline]
    pub fn lay_seen(&mut self, (a, b, t): Between<Self>) {
        for band in 0..BANDS {
            self.cone[band] *= between!(a, b, t, cone, band);
            self.trapped[band] *= between!(a, b, t, trapped, band);
        }
    }

    /// The same, to be seen through.
    #[inline]
    pub fn lay(&mut self, (a, b, t): Between<Self>) {
        self.lay_seen((a, b, t));
        for band in 0..BANDS {
            self.straight[band] *= between!(a, b, t, straight, band);
        }
    }
}

/// What a stack sends back under its top face, and the straight beam's share of it.
#[derive(Clone, Copy, Debug)]
struct Back {
    cone: Spectrum,
    cross: Spectrum,
    trapped: Spectrum,
    /// What light in the cone keeps on its way down without being scattered.
    beam: Spectrum,
    /// What the ground sends back of the beam into the cone.
    beam_back: f32,
}

/// In one band: what comes back up after all bounces between a ground and a scattering layer over it.
struct Bounce {
    cone: f32,
    cross: f32,
    trapped: f32,
}

impl Bounce {
    #[inline]
    fn new(ground: (f32, f32, f32), layer: (f32, f32, f32)) -> Self {
        let ((a, b, d), (r1, r2, r3)) = (ground, layer);
        let (det, layer_det) = (a * d - b * b, r1 * r3 - r2 * r2);
        let i = 1.0 / (1.0 - (r1 * a + 2.0 * r2 * b + r3 * d) + layer_det * det);
        Self { cone: (a - det * r3) * i, cross: (b + det * r2) * i, trapped: (d - det * r1) * i }
    }
}

impl Back {
    /// The bottom face of the glass, air below it and then a ground of this reflectance.
    fn above_air(ground: f32) -> Self {
        let up = (1.0 - BOTTOM) * ground / (1.0 - BOTTOM * ground);
        Self::new(BOTTOM + (1.0 - BOTTOM) * up, 0.0, TRAPPED_BELOW, 1.0)
    }

    fn new(cone: f32, cross: f32, trapped: f32, beam: f32) -> Self {
        let [cone_all, cross, trapped, beam] = [cone, cross, trapped, beam].map(|x| [x; BANDS]);
        Self { cone: cone_all, cross, trapped, beam, beam_back: cone }
    }

    #[inline]
    fn bounce(&self, (a, b, t): Between<Layer>, band: usize) -> (Bounce, (f32, f32, f32)) {
        let layer = (
            between!(a, b, t, back_cone, band),
            between!(a, b, t, back_cross, band),
            between!(a, b, t, back_trapped, band),
        );
        (Bounce::new((self.cone[band], self.cross[band], self.trapped[band]), layer), layer)
    }

    /// Lays what only absorbs.
    #[inline]
    fn dim(&mut self, film: &Film) {
        for band in 0..BANDS {
            let (cone, trapped) = (film.cone[band], film.trapped[band]);
            self.cone[band] *= cone * cone;
            self.cross[band] *= cone * trapped;
            self.trapped[band] *= trapped * trapped;
            self.beam[band] *= cone;
        }
    }

    /// Lays a layer that scatters.
    #[inline]
    fn lay(&mut self, (a, b, t): Between<Layer>) {
        for band in 0..BANDS {
            let (y, (r1, r2, r3)) = self.bounce((a, b, t), band);
            let pass = passed((a, b, t), band);
            let (e, f) = (pass.0 * y.cone + pass.1 * y.cross, pass.0 * y.cross + pass.1 * y.trapped);
            let (g, h) = (pass.1 * y.cone + pass.2 * y.cross, pass.1 * y.cross + pass.2 * y.trapped);
            self.cone[band] = r1 + e * pass.0 + f * pass.1;
            self.cross[band] = r2 + e * pass.1 + f * pass.2;
            self.trapped[band] = r3 + g * pass.1 + h * pass.2;
            self.beam[band] *= between!(a, b, t, beam, band);
        }
    }

    /// Whether no straight light gets through and back.
    #[inline]
    fn hides(&self) -> bool {
        self.beam.iter().all(|beam| *beam < GONE)
    }

    /// In one band, under a film and the top face, of light that comes up in the cone and of trapped light: what leaves upward in
    /// the cone after all bounces.
    #[inline]
    fn under_the_top(&self, film: &Film, band: usize) -> (f32, f32) {
        let (cone, trapped) = (film.cone[band], film.trapped[band]);
        let (a, b) = (self.cone[band] * cone * cone, self.cross[band] * cone * trapped);
        let m = 1.0 - self.trapped[band] * trapped * trapped;
        let q = 1.0 / ((1.0 - TOP * a) * m - TOP * b * b);
        ((a * m + b * b) * q, b * q)
    }

    /// In one band, what light in the cone keeps under a film on its way down, and what of the light that leaves upward after all
    /// bounces had never been scattered.
    #[inline]
    fn straight(&self, film: &Film, band: usize) -> (f32, f32) {
        let down = self.beam[band] * film.cone[band];
        let beam = self.beam_back * down * down;
        (down, beam / (1.0 - TOP * beam))
    }
}

/// What a layer passes on in one band.
#[inline]
fn passed((a, b, t): Between<Layer>, band: usize) -> (f32, f32, f32) {
    (
        between!(a, b, t, pass_cone, band),
        between!(a, b, t, pass_cross, band),
        between!(a, b, t, pass_trapped, band),
    )
}

/// A stack seen by light from above.
#[derive(Clone, Copy, Debug)]
pub struct Seen {
    back: Back,
    ground: f32,
}

/// A beam that keeps less than this, in any band, on its way down is as good as gone: single precision would not tell.
const GONE: f32 = 1e-4;

impl Seen {
    /// The bottom face of the glass, air below it and then a ground of this reflectance.
    pub fn ground(ground: f32) -> Self {
        Self { back: Back::above_air(ground), ground }
    }

    /// An opaque base, in touch with the glass, that sends back this share of the light inside it.
    pub fn on(inside: f32) -> Self {
        let cone = CONE as f32;
        let cross = (cone * (1.0 - cone)).sqrt();
        Self { back: Back::new(inside * cone, inside * cross, inside * (1.0 - cone), 0.0), ground: 0.0 }
    }

    /// Lays a layer on top, interpolated between two of a table.
    #[inline]
    pub fn lay(&mut self, layer: Between<Layer>, scatters: bool) {
        if scatters {
            self.back.lay(layer);
        } else {
            self.back.dim(&Film::of(layer));
        }
    }

    /// The spectrum that shows, a perfect white being 1, surface reflection left out.
    pub fn shows(&self) -> Spectrum {
        self.shows_under(&Film::NONE)
    }

    /// What shows with a film on top.
    #[inline]
    pub fn shows_under(&self, film: &Film) -> Spectrum {
        let mut out = [0.0; BANDS];
        if self.back.hides() {
            for band in 0..BANDS {
                out[band] = (1.0 - TOP) * self.back.under_the_top(film, band).0;
            }
            return out;
        }
        for band in 0..BANDS {
            let (all, _) = self.back.under_the_top(film, band);
            let (down, beam) = self.back.straight(film, band);
            let z = down * down;
            let around = 1.0 - self.ground * (SHEET_BACK.0 + SHEET_BACK.1 * z);
            let clear = (1.0 - R0) * SHEET_DIFFUSE * self.ground * z / ((1.0 - R0 * R0 * z) * around);
            out[band] = ((1.0 - TOP) * (all - beam) + clear).at_least(0.0);
        }
        out
    }
}

/// A stack seen against diffuse light from below: what it passes on, and what it sends back down.
#[derive(Clone, Copy, Debug)]
pub struct Lit {
    cone: Spectrum,
    trapped: Spectrum,
    straight: Spectrum,
    back: Back,
}

impl Lit {
    /// The bottom face of the glass with diffuse light below it.
    pub fn lamp() -> Self {
        Self {
            cone: [1.0 - BOTTOM; BANDS],
            trapped: [0.0; BANDS],
            straight: [1.0; BANDS],
            back: Back::above_air(0.0),
        }
    }

    /// Lays a layer on top, interpolated between two of a table.
    #[inline]
    pub fn lay(&mut self, layer: Between<Layer>, scatters: bool) {
        if !scatters {
            let film = Film::of(layer);
            for band in 0..BANDS {
                self.cone[band] *= film.cone[band];
                self.trapped[band] *= film.trapped[band];
                self.straight[band] *= film.straight[band];
            }
            return self.back.dim(&film);
        }
        let (a, b, t) = layer;
        for band in 0..BANDS {
            let (y, (r1, r2, r3)) = self.back.bounce(layer, band);
            let (t1, t2) = (self.cone[band], self.trapped[band]);
            let (v1, v2) = (t1 * r1 + t2 * r2, t1 * r2 + t2 * r3);
            let n1 = t1 + v1 * y.cone + v2 * y.cross;
            let n2 = t2 + v1 * y.cross + v2 * y.trapped;
            let pass = passed(layer, band);
            self.straight[band] *= between!(a, b, t, straight, band);
            self.cone[band] = n1 * pass.0 + n2 * pass.1;
            self.trapped[band] = n1 * pass.1 + n2 * pass.2;
        }
        self.back.lay(layer);
    }

    /// The spectrum that comes through, the lamp's own light being 1.
    pub fn shows(&self) -> Spectrum {
        self.shows_under(&Film::NONE)
    }

    /// The same where the bands stand for other wavelengths than their own, nm: all that the model knows of a wavelength is what a face
    /// sends back of a straight beam.
    pub fn shows_at(&self, nanometers: [f64; BANDS]) -> Spectrum {
        let shows = self.shows();
        std::array::from_fn(|band| {
            let passes = |normal| surface::sheet_passes(self.straight[band], normal);
            shows[band] + passes(surface::normal_at(nanometers[band]) as f32)
                - passes(surface::NORMAL_BY_BAND[band])
        })
    }

    /// What comes through with a film on top.
    #[inline]
    pub fn shows_under(&self, film: &Film) -> Spectrum {
        let mut out = [0.0; BANDS];
        for band in 0..BANDS {
            let (up, trapped) = self.back.under_the_top(film, band);
            let (down, beam) = self.back.straight(film, band);
            let cone = self.cone[band] * film.cone[band];
            let all = cone * (1.0 + TOP * up) + self.trapped[band] * film.trapped[band] * trapped;
            let unscattered = (1.0 - BOTTOM) * down * (1.0 + TOP * beam);
            out[band] = ((1.0 - R0) * (all - unscattered) + self.straight_through(film, band)).at_least(0.0);
        }
        out
    }

    /// The part of it in one band that was never scattered: what one sees through the stack and a film on it as through a pane.
    #[inline]
    pub fn straight_through(&self, film: &Film, band: usize) -> f32 {
        surface::sheet_passes(self.straight[band] * film.straight[band], surface::NORMAL_BY_BAND[band])
    }
}
