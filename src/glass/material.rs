//! What a glass is made of, optically: absorption and scatter per mm in every band.

use crate::base::data::data;
use crate::color::spectrum::{BANDS, Spectrum};
use serde::{Deserialize, Serialize};

data! {
    /// Absorption and scatter of a fired glass, in the bands of [`crate::color::spectrum::WAVELENGTHS`].
    pub struct Material {
        /// Absorption per mm (natural logarithm; Beer-Lambert).
        pub absorption: Spectrum,
        /// Back-scatter per mm (Kubelka-Munk S); zero for transparent glass, which is what it is if left out.
        #[serde(default, skip_serializing_if = "is_zero")]
        pub scatter: Spectrum,
    }
}

fn is_zero(spectrum: &Spectrum) -> bool {
    *spectrum == [0.0; BANDS]
}

impl Material {
    /// A blend by volume: absorption and scatter mix in proportion, colors do not.
    ///
    /// `parts` are (material, share); shares should add up to 1.
    pub fn blend<'a>(parts: impl IntoIterator<Item = (&'a Self, f32)>) -> Self {
        let mut sum = Self { absorption: [0.0; BANDS], scatter: [0.0; BANDS] };
        for (material, share) in parts {
            for band in 0..BANDS {
                sum.absorption[band] += share * material.absorption[band];
                sum.scatter[band] += share * material.scatter[band];
            }
        }
        sum
    }

    /// Whether it scatters light at all.
    pub fn scatters(&self) -> bool {
        self.scatter.iter().any(|s| *s > 0.0)
    }

    /// Back-scatter per mm in the mean over the bands.
    pub fn mean_scatter(&self) -> f32 {
        self.scatter.iter().sum::<f32>() / BANDS as f32
    }

    /// The same with so much more back-scatter per mm in every band.
    #[must_use]
    pub fn milkier(&self, by: f32) -> Self {
        Self { scatter: self.scatter.map(|s| s + by), ..self.clone() }
    }
}
