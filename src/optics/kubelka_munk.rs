//! One layer in diffuse light (Kubelka & Munk 1931; Kubelka 1948, J. Opt. Soc. Am. 38, 448), in a form that does
//! not divide by absorption or scatter and cannot overflow.

use crate::base::scalar::{exp, exp_m1};

/// Reflectance over black and transmittance of a layer whose absorption and scatter times thickness are `k` and `s`
/// (both at least 0).
pub fn layer(k: f64, s: f64) -> (f64, f64) {
    let beta = (k * (k + 2.0 * s)).sqrt();
    // (1 - exp(-2 beta)) / beta, which tends to 2.
    let h = if beta < 1e-8 { 2.0 - 2.0 * beta } else { -exp_m1(-2.0 * beta) / beta };
    let e = exp(-beta);
    let d = 1.0 + e * e + (k + s) * h;
    (s * h / d, 2.0 * e / d)
}

/// Reflectance of a layer too thick to see through.
pub fn thick(k: f64, s: f64) -> f64 {
    if s <= 0.0 { 0.0 } else { s / (k + s + (k * (k + 2.0 * s)).sqrt()) }
}
