//! Viscosity of a glass from the two temperatures that its maker gives: softening and annealing point.
//!
//! The curve is that of Vogel, Fulcher and Tammann, log10 eta = A + B/(T - T0). A is fixed, because annealing and strain point lie so
//! close together that a third point moves the curve's ends more than it steadies them: 5 K at the strain point would move 10^3 Pa s
//! by 250 K.

use crate::base::scalar::{exp, ln};
use crate::base::units::Celsius;
use serde::{Deserialize, Serialize};

/// log10 of the viscosity at the softening point, Pa s. ASTM C338's softening point lies between 10^6.5 and 10^7 Pa s by density;
/// 10^6.65 is usual for soda-lime glass. 0.05 moves it 2.5 K.
pub const SOFTENING: f64 = 6.65;
/// log10 of the viscosity at the annealing point, Pa s (definition).
pub const ANNEALING: f64 = 12.0;
/// log10 of the viscosity at the strain point, Pa s (definition).
pub const STRAIN: f64 = 13.5;
/// The most fluid that a curve is good for, log10 Pa s: about 900 °C for window glass. Beyond, the two points say little.
pub const MOST_FLUID: f64 = 4.0;
/// The fixed A, log10 Pa s. With it, softening and annealing point of three published soda-lime curves give their strain point to
/// 0.5 K and their viscosity at 650 and 800 °C to 0.02 decades.
const FIXED_A: f64 = -2.6;
/// The least that the softening point lies above the annealing point, K: less is no glass that is fused. A judgment: published glasses
/// have 160 to 205 K (SRM 710, 710a, 711, 717a and DGG I).
const LEAST_APART: f64 = 80.0;

/// A curve of Vogel, Fulcher and Tammann, in °C and Pa s.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Vft {
    /// A, log10 Pa s.
    pub a: f64,
    /// B, K.
    pub b: f64,
    /// T0, °C.
    pub t0: f64,
}

impl Vft {
    /// log10 of the viscosity, Pa s; endless at T0 and below, and where the temperature is no number.
    pub fn log10(&self, at: Celsius) -> f64 {
        let above = at.0 - self.t0;
        if above > 0.0 { self.a + self.b / above } else { f64::INFINITY }
    }

    /// Where a viscosity, log10 Pa s, is reached.
    pub fn temperature(&self, log10: f64) -> Celsius {
        Celsius(self.t0 + self.b / (log10 - self.a))
    }
}

/// Viscosity of one glass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Viscosity {
    softening: Celsius,
    annealing: Celsius,
    curve: Vft,
}

/// Why two temperatures are no glass's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoGlass {
    /// One of them is no temperature between 300 and 1000 °C.
    OutOfRange,
    /// The softening point is not, or hardly, above the annealing point.
    TooClose,
    /// They lie so far apart that the curve would reach below absolute zero.
    TooFar,
}

impl NoGlass {
    /// What is wrong, why, and what to do about it.
    pub fn said(self) -> [&'static str; 3] {
        match self {
            Self::OutOfRange => [
                "No temperature of a glass.",
                "Softening and annealing points of glasses lie between 300 and 1000 °C.",
                "Take both from the glass maker's sheet, in °C.",
            ],
            Self::TooClose => [
                "Softening must lie above annealing.",
                "A glass softens some 160 to 200 K above the point where it anneals.",
                "Swap the two, or look both up again.",
            ],
            Self::TooFar => [
                "Softening and annealing lie too far apart.",
                "A glass softens some 160 to 200 K above the point where it anneals.",
                "Look both up again on the glass maker's sheet.",
            ],
        }
    }
}

impl Viscosity {
    /// The viscosity of the glass with this softening and this annealing point.
    ///
    /// # Errors
    /// Why there is no such glass.
    pub fn new(softening: Celsius, annealing: Celsius) -> Result<Self, NoGlass> {
        let in_range = |t: Celsius| (300.0..=1000.0).contains(&t.0);
        if !in_range(softening) || !in_range(annealing) {
            return Err(NoGlass::OutOfRange);
        }
        if softening.0 < annealing.0 + LEAST_APART {
            return Err(NoGlass::TooClose);
        }
        let (soft, hard) = (SOFTENING - FIXED_A, ANNEALING - FIXED_A);
        let t0 = (hard * annealing.0 - soft * softening.0) / (ANNEALING - SOFTENING);
        if t0 < -273.15 {
            return Err(NoGlass::TooFar);
        }
        let curve = Vft { a: FIXED_A, b: soft * (softening.0 - t0), t0 };
        Ok(Self { softening, annealing, curve })
    }

    /// The curve.
    pub fn curve(&self) -> Vft {
        self.curve
    }

    /// The softening point.
    pub fn softening(&self) -> Celsius {
        self.softening
    }

    /// The annealing point.
    pub fn annealing(&self) -> Celsius {
        self.annealing
    }

    /// The strain point as the curve has it: below it, no stress goes away in a working day.
    pub fn strain(&self) -> Celsius {
        self.curve.temperature(STRAIN)
    }

    /// The hottest temperature that the curve is good for.
    pub fn hottest(&self) -> Celsius {
        self.curve.temperature(MOST_FLUID)
    }

    /// Viscosity, Pa s; endless where the glass does not flow at all.
    pub fn at(&self, at: Celsius) -> f64 {
        exp(self.curve.log10(at) * ln(10.0))
    }

    /// Fluidity, 1/(Pa s): what a firing adds up. None below the strain point, where the curve is not good and nothing flows that can
    /// be seen.
    pub fn fluidity(&self, at: Celsius) -> f64 {
        let log10 = self.curve.log10(at);
        if log10 <= STRAIN { exp(-log10 * ln(10.0)) } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_glass_is_said() {
        let of = |softening, annealing| Viscosity::new(Celsius(softening), Celsius(annealing));
        assert_eq!(of(510.0, 680.0), Err(NoGlass::TooClose));
        assert_eq!(of(580.0, 510.0), Err(NoGlass::TooClose));
        assert_eq!(of(850.0, 350.0), Err(NoGlass::TooFar));
        for bad in [f64::NAN, f64::INFINITY, -1e300, 0.0] {
            assert_eq!(of(bad, 510.0), Err(NoGlass::OutOfRange));
            assert_eq!(of(680.0, bad), Err(NoGlass::OutOfRange));
        }
        let glass = of(680.0, 510.0).expect("it is one");
        for t in [f64::NAN, f64::NEG_INFINITY, -273.15, 216.0] {
            assert_eq!(glass.curve().log10(Celsius(t)), f64::INFINITY);
            assert_eq!(glass.fluidity(Celsius(t)), 0.0);
        }
    }
}
