//! A stack of layers folded from the bottom up, in optical order, base included. What light is told apart by is in
//! [`super::slab`]; the straight beam's share is known from one running product, taken out at the end, and the exact clear
//! slab put in its place.

use super::film::{ALL_LIGHT, Film, NO_LIGHT, between};
use super::layer::Layer;
use super::surface::{self, CONE};
use super::table::Between;
use crate::base::lanes::{Four, LANES, Number};
use crate::base::scalar::{Bounds, lerp};
use crate::color::spectrum::{BANDS, PARTS, Parts, Spectrum, from_parts, part};

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

/// What a stack sends back under its top face, and the straight beam's share of it.
#[derive(Clone, Copy, Debug)]
struct Back {
    cone: Parts,
    cross: Parts,
    trapped: Parts,
    /// What light in the cone keeps on its way down without being scattered.
    beam: Parts,
    /// What the ground sends back of the beam into the cone.
    beam_back: f32,
}

/// In four bands: from cone to cone, from one class to the other, from trapped to trapped.
type Classes = (Four, Four, Four);

/// What comes back up after all bounces between a ground and a scattering layer over it.
#[inline]
fn bounces((a, b, d): Classes, (r1, r2, r3): Classes) -> Classes {
    let (det, layer_det) = (a * d - b * b, r1 * r3 - r2 * r2);
    let i = ALL_LIGHT / (layer_det * det - (r1 * a + r2 * b * 2.0 + r3 * d) + 1.0);
    ((a - det * r3) * i, (b + det * r2) * i, (d - det * r1) * i)
}

impl Back {
    /// The bottom face of the glass, air below it and then a ground of this reflectance.
    fn above_air(ground: f32) -> Self {
        let up = (1.0 - BOTTOM) * ground / (1.0 - BOTTOM * ground);
        Self::new(BOTTOM + (1.0 - BOTTOM) * up, 0.0, TRAPPED_BELOW, 1.0)
    }

    fn new(cone: f32, cross: f32, trapped: f32, beam: f32) -> Self {
        let [all, cross, trapped, beam] = [cone, cross, trapped, beam].map(|x| [Four::splat(x); PARTS]);
        Self { cone: all, cross, trapped, beam, beam_back: cone }
    }

    /// What comes up between it and a layer over it, and what that layer sends back.
    #[inline]
    fn bounce(&self, (a, b, t): Between<Layer>, p: usize) -> (Classes, Classes) {
        let layer = (
            between!(a, b, t, back_cone, p),
            between!(a, b, t, back_cross, p),
            between!(a, b, t, back_trapped, p),
        );
        (bounces((self.cone[p], self.cross[p], self.trapped[p]), layer), layer)
    }

    /// Lays what only absorbs.
    fn dim(&mut self, film: &Film) {
        for p in 0..PARTS {
            let (cone, trapped) = (film.cone[p], film.trapped[p]);
            self.cone[p] *= cone * cone;
            self.cross[p] *= cone * trapped;
            self.trapped[p] *= trapped * trapped;
            self.beam[p] *= cone;
        }
    }

    /// Lays a layer that scatters.
    fn lay(&mut self, (a, b, t): Between<Layer>) {
        for p in 0..PARTS {
            let (y, (r1, r2, r3)) = self.bounce((a, b, t), p);
            let pass = passed((a, b, t), p);
            let (e, f) = (pass.0 * y.0 + pass.1 * y.1, pass.0 * y.1 + pass.1 * y.2);
            let (g, h) = (pass.1 * y.0 + pass.2 * y.1, pass.1 * y.1 + pass.2 * y.2);
            self.cone[p] = r1 + e * pass.0 + f * pass.1;
            self.cross[p] = r2 + e * pass.1 + f * pass.2;
            self.trapped[p] = r3 + g * pass.1 + h * pass.2;
            self.beam[p] *= between!(a, b, t, beam, p);
        }
    }

    /// Whether no straight light gets through and back.
    #[inline]
    fn hides(&self) -> bool {
        self.beam.iter().all(|beam| !beam.any_above(GONE))
    }

    /// In four bands, under a film and the top face, of light that comes up in the cone and of trapped light: what leaves upward in
    /// the cone after all bounces.
    #[inline]
    fn under_the_top(&self, film: &Film, p: usize) -> (Four, Four) {
        let (cone, trapped) = (film.cone[p], film.trapped[p]);
        let (a, b) = (self.cone[p] * cone * cone, self.cross[p] * cone * trapped);
        let m = -(self.trapped[p] * trapped * trapped) + 1.0;
        let q = ALL_LIGHT / ((a * -TOP + 1.0) * m - b * b * TOP);
        ((a * m + b * b) * q, b * q)
    }

    /// In four bands, what light in the cone keeps under a film on its way down, and what of the light that leaves upward after all
    /// bounces had never been scattered.
    #[inline]
    fn straight(&self, film: &Film, p: usize) -> (Four, Four) {
        let down = self.beam[p] * film.cone[p];
        let beam = down * down * self.beam_back;
        (down, beam / (beam * -TOP + 1.0))
    }
}

/// What a layer passes on in four bands.
#[inline]
fn passed((a, b, t): Between<Layer>, p: usize) -> Classes {
    (between!(a, b, t, pass_cone, p), between!(a, b, t, pass_cross, p), between!(a, b, t, pass_trapped, p))
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
    pub fn shows_under(&self, film: &Film) -> Spectrum {
        if self.back.hides() {
            return from_parts(|p| self.back.under_the_top(film, p).0 * (1.0 - TOP));
        }
        from_parts(|p| {
            let (all, _) = self.back.under_the_top(film, p);
            let (down, beam) = self.back.straight(film, p);
            let z = down * down;
            let around = (z * SHEET_BACK.1 + SHEET_BACK.0) * -self.ground + 1.0;
            let clear = z * ((1.0 - R0) * SHEET_DIFFUSE * self.ground) / ((z * -(R0 * R0) + 1.0) * around);
            ((all - beam) * (1.0 - TOP) + clear).at_least(NO_LIGHT)
        })
    }
}

/// A stack seen against diffuse light from below: what it passes on, and what it sends back down.
#[derive(Clone, Copy, Debug)]
pub struct Lit {
    cone: Parts,
    trapped: Parts,
    straight: Parts,
    back: Back,
}

impl Lit {
    /// The bottom face of the glass with diffuse light below it.
    pub fn lamp() -> Self {
        Self {
            cone: [Four::splat(1.0 - BOTTOM); PARTS],
            trapped: [NO_LIGHT; PARTS],
            straight: [ALL_LIGHT; PARTS],
            back: Back::above_air(0.0),
        }
    }

    /// Lays a layer on top, interpolated between two of a table.
    pub fn lay(&mut self, layer: Between<Layer>, scatters: bool) {
        if !scatters {
            let film = Film::of(layer);
            for p in 0..PARTS {
                self.cone[p] *= film.cone[p];
                self.trapped[p] *= film.trapped[p];
                self.straight[p] *= film.straight[p];
            }
            return self.back.dim(&film);
        }
        let (a, b, t) = layer;
        for p in 0..PARTS {
            let (y, (r1, r2, r3)) = self.back.bounce(layer, p);
            let (t1, t2) = (self.cone[p], self.trapped[p]);
            let (v1, v2) = (t1 * r1 + t2 * r2, t1 * r2 + t2 * r3);
            let n1 = t1 + v1 * y.0 + v2 * y.1;
            let n2 = t2 + v1 * y.1 + v2 * y.2;
            let pass = passed(layer, p);
            self.straight[p] *= between!(a, b, t, straight, p);
            self.cone[p] = n1 * pass.0 + n2 * pass.1;
            self.trapped[p] = n1 * pass.1 + n2 * pass.2;
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
        let (shows, straight) = (self.shows(), from_parts(|p| self.straight[p]));
        std::array::from_fn(|band| {
            let passes = |normal| surface::sheet_passes(straight[band], normal);
            shows[band] + passes(surface::normal_at(nanometers[band]) as f32)
                - passes(surface::NORMAL_BY_BAND[band])
        })
    }

    /// What comes through with a film on top.
    pub fn shows_under(&self, film: &Film) -> Spectrum {
        from_parts(|p| {
            let (up, trapped) = self.back.under_the_top(film, p);
            let (down, beam) = self.back.straight(film, p);
            let cone = self.cone[p] * film.cone[p];
            let all = cone * (up * TOP + 1.0) + self.trapped[p] * film.trapped[p] * trapped;
            let unscattered = down * (beam * TOP + 1.0) * (1.0 - BOTTOM);
            ((all - unscattered) * (1.0 - R0) + self.unscattered(film, p)).at_least(NO_LIGHT)
        })
    }

    /// The part of it in one band that was never scattered: what one sees through the stack and a film on it as through a pane.
    #[inline]
    pub fn straight_through(&self, film: &Film, band: usize) -> f32 {
        self.unscattered(film, band / LANES).to_array()[band % LANES]
    }

    #[inline]
    fn unscattered(&self, film: &Film, p: usize) -> Four {
        surface::sheet_passes(self.straight[p] * film.straight[p], part(&surface::NORMAL_BY_BAND, p))
    }
}
