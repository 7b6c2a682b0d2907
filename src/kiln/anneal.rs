//! What an anneal has to do: let stress go, make the glass even, and set it without putting stress in.

use super::thermal::{Exchange, POISSON, Plate, YOUNG};
use crate::base::units::Celsius;
use crate::glass::viscosity::Viscosity;

/// Tension that may stay in the core, MPa. A judgment: a fourteenth of the 7 MPa often named for lasting tension (from memory).
pub const MAY_STAY: f64 = 0.5;
/// Share of the stress that the gradient alone explains. Gardon and Narayanaswamy 1970 (J. Am. Ceram. Soc. 53, 380; abstract): with a
/// constant rate some 40 % comes from the glass's own relaxation, so the classical rate is too fast by this.
pub const GRADIENT_SHARE: f64 = 0.6;
/// Time constants that a soak lasts: less than a hundredth is left after five.
const SOAKED: f64 = 5.0;

/// Time in which stress goes down to 1/e, s: 6 eta (1 - nu)/E, a plate stretched alike in all directions in its plane, its shear viscous.
pub fn relaxation(viscosity: &Viscosity, at: Celsius) -> f64 {
    6.0 * viscosity.at(at) * (1.0 - POISSON) / YOUNG
}

/// The shortest soak, s: five time constants of the stress and five of heat through the thickness, one face only.
pub fn shortest_soak(viscosity: &Viscosity, at: Celsius, plate: Plate) -> f64 {
    SOAKED * (relaxation(viscosity, at) + plate.time_constant(Exchange::OneFaceHeld))
}

/// The fastest rate, K/h, through the anneal, in the worst case that heat leaves by one face and the glass cannot bow.
pub fn fastest(plate: Plate) -> f64 {
    GRADIENT_SHARE * plate.rate_for_core(MAY_STAY, Exchange::OneFaceHeld)
}

/// Tension that stays in the core, MPa, of glass cooled through its anneal at a rate in K/h, in the same case.
pub fn stays(plate: Plate, rate: f64) -> f64 {
    plate.core_stress(rate, Exchange::OneFaceHeld) / GRADIENT_SHARE
}
