//! What melted glass does on a shelf by its weight and its skin alone: how high it stands when it has come to rest.

use crate::base::scalar::sin_cos;

/// Standard gravity, m/s².
pub const GRAVITY: f64 = 9.806_65;
/// Surface tension of melted glass, N/m. Parikh 1958 (J. Am. Ceram. Soc. 41, 18; abstract) measured 0.315 dry and down to 0.205
/// in moist air, 500 to 700 °C.
pub const SURFACE_TENSION: f64 = 0.30;
/// Density of melted glass, kg/m³: soda-lime glass, a little below its 2500 when cold.
pub const MELT_DENSITY: f64 = 2400.0;
/// Angle at which melted glass meets a shelf with separator, degrees. Assumed: no measurement was found, and 120° to 130° give the
/// 6 to 7 mm that are common practice.
pub const CONTACT_ANGLE: f64 = 130.0;

/// Capillary length, mm: sqrt(gamma/(rho g)).
pub fn capillary_length() -> f64 {
    (SURFACE_TENSION / (MELT_DENSITY * GRAVITY)).sqrt() * 1e3
}

/// Thickness at which a wide puddle comes to rest, mm, for a contact angle in degrees: 2 sqrt(gamma/(rho g)) sin(theta/2)
/// (de Gennes, Brochard-Wyart and Quéré 2004, Capillarity and Wetting Phenomena).
pub fn resting_thickness(contact_angle: f64) -> f64 {
    let (sin, _) = sin_cos(contact_angle.to_radians() / 2.0);
    2.0 * capillary_length() * sin
}
