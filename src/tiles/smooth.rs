//! Smooth spectra of few coefficients, inside what a glass can be: absorption and scatter are positive whatever the coefficients.
//!
//! Absorption is that of a transmittance which is a logistic function of a polynomial in the wavelength (the sigmoid of Jakob & Hanika 2019,
//! Comput. Graph. Forum 38(2), 147, put on the layer's own transmittance instead of on a reflectance: a tile cannot be brighter
//! than its base); scatter is the exponential of one.

use crate::base::scalar::{exp, ln_1p};
use crate::color::spectrum::{BANDS, Spectrum, WAVELENGTHS};

/// Absorption times thickness beyond this is black whatever it is.
const MOST: f64 = 40.0;
/// The logarithm of scatter times thickness: below, nothing is seen of it; above, it hides all.
const SCATTER: (f64, f64) = (-14.0, 5.0);

/// Absorption per mm: `alpha thickness = ln(1 + exp(c0 + c1 x + c2 x² + ...))`, x being 0 at 560 nm and 1 at 740 nm.
pub fn absorption(coefficients: &[f64], thickness: f64) -> Spectrum {
    std::array::from_fn(|band| (softplus(at(coefficients, band).clamp(-MOST, MOST)) / thickness) as f32)
}

/// Scatter per mm: `S thickness = exp(s0 + s1 x + s2 x²)`.
pub fn scatter(coefficients: &[f64], thickness: f64) -> Spectrum {
    std::array::from_fn(|band| (exp(at(coefficients, band).clamp(SCATTER.0, SCATTER.1)) / thickness) as f32)
}

/// A flat scatter per mm.
pub fn flat(scatter: f64) -> Spectrum {
    [scatter as f32; BANDS]
}

fn at(coefficients: &[f64], band: usize) -> f64 {
    let x = (f64::from(WAVELENGTHS[band]) - 560.0) / 180.0;
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

fn softplus(z: f64) -> f64 {
    if z > 0.0 { z + ln_1p(exp(-z)) } else { ln_1p(exp(z)) }
}
