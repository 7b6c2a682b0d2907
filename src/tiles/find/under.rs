//! What the powder lies on, by day or lit.

use crate::color::difference::{Lab, to_lab};
use crate::color::spectrum::{Spectrum, to_linear};
use crate::color::srgb::Linear;
use crate::optics::film::Film;
use crate::optics::layer::Layer;
use crate::optics::stack::{Lit, Seen};
use crate::optics::table::Between;

/// What the powder lies on, and how it is looked at.
#[derive(Clone, Copy, Debug)]
pub enum Under {
    /// By day.
    Day(Seen),
    /// Against a lamp of this color, linear.
    Lit(Lit, Linear),
}

impl Under {
    /// Lays a layer on top.
    pub fn lay(&mut self, layer: Between<Layer>, scatters: bool) {
        match self {
            Self::Day(seen) => seen.lay(layer, scatters),
            Self::Lit(lit, _) => lit.lay(layer, scatters),
        }
    }

    fn spectrum(&self, film: &Film) -> Spectrum {
        match self {
            Self::Day(seen) => seen.shows_under(film),
            Self::Lit(lit, _) => lit.shows_under(film),
        }
    }

    /// What shows with a film on top.
    pub fn color(&self, film: &Film) -> Lab {
        let linear = to_linear(&self.spectrum(film));
        to_lab(match self {
            Self::Day(_) => linear,
            Self::Lit(_, lamp) => [0, 1, 2].map(|i| linear[i] * lamp[i]),
        })
    }

    /// Lays a layer that only absorbs on a film that is to lie on this.
    pub fn lay_on(&self, film: &mut Film, layer: Between<Film>) {
        match self {
            Self::Day(_) => film.lay_seen(layer),
            Self::Lit(..) => film.lay(layer),
        }
    }
}
