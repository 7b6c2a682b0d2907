//! Fields seen through a warped pane: what tears the outlines of patches and blotches.

use super::field::{Lattice, pane, plane_waves};
use crate::base::lanes::Number;
use rand::Rng;

/// How a field is warped: by how much (standard deviation, mm), how wide its swirls are (mm), in how many octaves.
pub(super) struct Warp {
    pub(super) by: f32,
    pub(super) size: f32,
    pub(super) octaves: u32,
}

/// Plane waves seen through a warped pane: isotropic patches with a torn outline.
#[derive(Debug)]
pub(super) struct Warped<const N: usize> {
    waves: Lattice<N>,
    /// How far the pane shifts what is seen, standard deviation, mm.
    pub(super) by: f32,
    pane: Lattice<2>,
}

impl Warped<1> {
    pub(super) fn new(rng: &mut impl Rng, ell: f32, warp: &Warp, radius: f32, reach: f32) -> Self {
        let waves = knots(rng, ell, warp, reach);
        Self::through_pane(&waves, rng, warp, radius, reach)
    }
}

impl Warped<2> {
    /// The field together with the inverse of its slope, as [`Lattice::with_inverse_slope`] has it.
    pub(super) fn with_slope(rng: &mut impl Rng, ell: f32, warp: &Warp, radius: f32, reach: f32) -> Self {
        let waves = knots(rng, ell, warp, reach).with_inverse_slope(0.35 / ell);
        Self::through_pane(&waves, rng, warp, radius, reach)
    }
}

/// Warps beyond so many standard deviations do not occur.
const FARTHEST: f32 = 4.0;

/// Pitch of the finished table of waves, mm.
const WAVES_PITCH: f32 = 0.5;

/// Knots of the waves, as far as any place is seen through the pane.
fn knots(rng: &mut impl Rng, ell: f32, warp: &Warp, reach: f32) -> Lattice {
    let pitch = (ell / 9.0).clamp(0.3, 1.6);
    plane_waves(rng, ell, reach + FARTHEST * warp.by + 2.0 * pitch, pitch)
}

impl<const N: usize> Warped<N> {
    fn through_pane(waves: &Lattice<N>, rng: &mut impl Rng, warp: &Warp, radius: f32, reach: f32) -> Self {
        let pane = pane(rng, warp.size, warp.octaves, radius, reach);
        Self { waves: waves.smooth(reach + FARTHEST * warp.by, WAVES_PITCH), by: warp.by, pane }
    }

    #[inline]
    pub(super) fn all<T: Number>(&self, x: T, y: T) -> [T; N] {
        let (right, up) = self.shift(x, y);
        self.waves.all(x + right, y + up)
    }

    /// How far the pane shifts what is seen through it at a place, mm.
    #[inline]
    pub(super) fn shift<T: Number>(&self, x: T, y: T) -> (T, T) {
        let [right, up] = self.pane.all(x, y);
        (right * self.by, up * self.by)
    }
}
