//! Heat and stress through the thickness of a plate that is heated or cooled at a constant rate: closed forms.
//!
//! A plate of thickness d changes at the rate R: its middle trails its faces by R d²/(8 kappa) if both take part, by R d²/(2 kappa) if
//! only one does. Stress is E alpha/(1 - nu) times the distance from the mean temperature (textbook thermoelasticity).

use crate::base::units::Mm;
use std::f64::consts::PI;

/// Young's modulus, Pa. Soda-lime glass: 70 GPa in EN 572-1, 72 to 74 for container and window glass.
pub const YOUNG: f64 = 72e9;
/// Poisson's ratio. EN 572-1 has 0.2.
pub const POISSON: f64 = 0.22;
/// Heat conductivity, W/(m K). EN 572-1 has 1.
pub const CONDUCTIVITY: f64 = 1.0;
/// Heat capacity, J/(kg K), in the middle between 720 when cold (EN 572-1) and some 1150 at 500 °C (from memory).
pub const HEAT_CAPACITY: f64 = 900.0;
/// Density, kg/m³ (EN 572-1).
pub const DENSITY: f64 = 2500.0;
/// Diffusivity of heat, m²/s. Real glasses differ by some 15 %.
pub const DIFFUSIVITY: f64 = CONDUCTIVITY / (HEAT_CAPACITY * DENSITY);

/// Which faces of the plate give or take heat, and whether it may bow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exchange {
    /// Both faces; or one face of a plate that is free to bow, which has the same stress.
    Free,
    /// One face of a shell that cannot bow, or of a plate held flat: four times the stress.
    OneFaceHeld,
}

impl Exchange {
    fn times(self) -> f64 {
        match self {
            Self::Free => 1.0,
            Self::OneFaceHeld => 4.0,
        }
    }
}

/// A plate as the formulas see it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Thickness.
    pub thick: Mm,
    /// Expansion, 1e-6/K.
    pub expansion: f64,
}

impl Plate {
    /// How far the slowest place trails the faces at a rate in K/h, K.
    pub fn lag(self, rate: f64, exchange: Exchange) -> f64 {
        let d = self.thick.0 * 1e-3;
        exchange.times() * rate / 3600.0 * d * d / (8.0 * DIFFUSIVITY)
    }

    /// Stress at the faces, MPa, at a rate in K/h: compression while it heats, tension while it cools.
    pub fn face_stress(self, rate: f64, exchange: Exchange) -> f64 {
        2.0 / 3.0 * stress_per_kelvin(self.expansion) * self.lag(rate, exchange)
    }

    /// Stress in the core, MPa, at a rate in K/h, of the other sign than at the faces. As much stays as tension for good where a cooling
    /// glass lost its gradient only after it had set (the mechanism of Adams and Williamson 1920, J. Franklin Inst. 190, 597).
    pub fn core_stress(self, rate: f64, exchange: Exchange) -> f64 {
        self.face_stress(rate, exchange) / 2.0
    }

    /// The rate, K/h, at which the faces have so much stress, MPa.
    pub fn rate_for_face(self, stress: f64, exchange: Exchange) -> f64 {
        stress / self.face_stress(1.0, exchange)
    }

    /// The rate, K/h, at which the core has so much stress, MPa.
    pub fn rate_for_core(self, stress: f64, exchange: Exchange) -> f64 {
        stress / self.core_stress(1.0, exchange)
    }

    /// The slowest time constant of heat through the thickness, s: d²/(pi² kappa), four times that if only one face takes part.
    pub fn time_constant(self, exchange: Exchange) -> f64 {
        let d = self.thick.0 * 1e-3;
        exchange.times() * d * d / (PI * PI * DIFFUSIVITY)
    }
}

/// Stress through the thickness per kelvin, MPa/K, for an expansion in 1e-6/K: E alpha/(1 - nu).
pub fn stress_per_kelvin(expansion: f64) -> f64 {
    across_per_kelvin(expansion) / (1.0 - POISSON)
}

/// Stress at an edge per kelvin that it differs from the mean of the disc, MPa/K: E alpha.
pub fn across_per_kelvin(expansion: f64) -> f64 {
    YOUNG * 1e-6 * expansion * 1e-6
}
