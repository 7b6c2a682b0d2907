//! Films: layers that only absorb, four bands at a time.

use super::layer::Layer;
use super::table::Between;
use crate::base::lanes::Four;
use crate::base::scalar::lerp;
use crate::color::spectrum::{PARTS, Parts, part};

/// Four bands between two entries of a table.
macro_rules! between {
    ($a:expr, $b:expr, $t:expr, $field:ident, $part:expr) => {
        lerp(part(&$a.$field, $part), part(&$b.$field, $part), Four::splat($t))
    };
}
pub(super) use between;

pub(super) const NO_LIGHT: Four = Four::ZERO;
pub(super) const ALL_LIGHT: Four = Four::ONE;

/// Layers that only absorb, on top of each other: what they keep of light in the cone, of trapped light and of a beam along the
/// normal. One after the other they multiply, whatever lies below.
#[derive(Clone, Copy, Debug)]
pub struct Film {
    pub(super) cone: Parts,
    pub(super) trapped: Parts,
    pub(super) straight: Parts,
}

impl Film {
    /// No layer at all.
    pub const NONE: Self =
        Self { cone: [ALL_LIGHT; PARTS], trapped: [ALL_LIGHT; PARTS], straight: [ALL_LIGHT; PARTS] };

    /// One layer.
    pub(super) fn of((a, b, t): Between<Layer>) -> Self {
        let mut film = Self::NONE;
        for p in 0..PARTS {
            film.cone[p] = between!(a, b, t, beam, p);
            film.trapped[p] = between!(a, b, t, pass_trapped, p);
            film.straight[p] = between!(a, b, t, straight, p);
        }
        film
    }

    /// Lays one on top, interpolated between two of a table, to be seen from above: the beam along the normal is left out.
    #[inline]
    pub fn lay_seen(&mut self, (a, b, t): Between<Self>) {
        let t = Four::splat(t);
        for p in 0..PARTS {
            self.cone[p] *= lerp(a.cone[p], b.cone[p], t);
            self.trapped[p] *= lerp(a.trapped[p], b.trapped[p], t);
        }
    }

    /// The same, to be seen through.
    #[inline]
    pub fn lay(&mut self, (a, b, t): Between<Self>) {
        self.lay_seen((a, b, t));
        for p in 0..PARTS {
            self.straight[p] *= lerp(a.straight[p], b.straight[p], Four::splat(t));
        }
    }
}

impl From<&Layer> for Film {
    fn from(layer: &Layer) -> Self {
        Self::of((layer, layer, 0.0))
    }
}
