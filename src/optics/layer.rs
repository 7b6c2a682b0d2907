//! One fired layer in all bands.

use super::slab::Slab;
use crate::color::spectrum::{BANDS, Spectrum};
use crate::glass::material::Material;

/// A fired layer of one thickness: see [`Slab`] for what the two classes of light are. What a layer that does not
/// scatter needs comes first.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// What light in the cone keeps without ever being scattered.
    pub beam: Spectrum,
    /// Passed on, trapped to trapped.
    pub pass_trapped: Spectrum,
    /// What a beam along the normal keeps, neither absorbed nor scattered.
    pub straight: Spectrum,
    /// Passed on, cone to cone.
    pub pass_cone: Spectrum,
    /// Passed on, from one class to the other.
    pub pass_cross: Spectrum,
    /// Sent back, cone to cone.
    pub back_cone: Spectrum,
    /// Sent back, from one class to the other.
    pub back_cross: Spectrum,
    /// Sent back, trapped to trapped.
    pub back_trapped: Spectrum,
}

impl Layer {
    /// A layer of `thickness` mm.
    #[inline(never)]
    pub fn of(material: &Material, thickness: f64) -> Self {
        Self::from_slabs(&slabs(material, thickness))
    }

    /// Layers of so many depths, the first of `thinnest` mm and each twice as thick as the one before.
    pub fn doubling(material: &Material, thinnest: f64, depths: usize) -> Vec<Self> {
        let first = slabs(material, thinnest);
        let all = std::iter::successors(Some(first), |slabs| Some(on(slabs, slabs)));
        all.take(depths).map(|slabs| Self::from_slabs(&slabs)).collect()
    }

    /// Share of light along the normal that it neither absorbs nor scatters, in the middle of the spectrum.
    pub fn straight_share(&self) -> f32 {
        self.straight[BANDS / 2]
    }

    pub(super) fn from_slabs(slabs: &[Slab; BANDS]) -> Self {
        let spectrum = |of: fn(&Slab) -> f64| std::array::from_fn(|band| of(&slabs[band]) as f32);
        Self {
            beam: spectrum(|slab| slab.beam),
            pass_trapped: spectrum(|slab| slab.pass.trapped),
            straight: spectrum(|slab| slab.straight),
            pass_cone: spectrum(|slab| slab.pass.cone),
            pass_cross: spectrum(|slab| slab.pass.cross),
            back_cone: spectrum(|slab| slab.back.cone),
            back_cross: spectrum(|slab| slab.back.cross),
            back_trapped: spectrum(|slab| slab.back.trapped),
        }
    }
}

pub(super) fn slabs(material: &Material, thickness: f64) -> [Slab; BANDS] {
    std::array::from_fn(|band| {
        let per_mm = (f64::from(material.absorption[band]), f64::from(material.scatter[band]));
        Slab::new(per_mm.0 * thickness, per_mm.1 * thickness)
    })
}

pub(super) fn on(upper: &[Slab; BANDS], lower: &[Slab; BANDS]) -> [Slab; BANDS] {
    std::array::from_fn(|band| upper[band].on(&lower[band]))
}
