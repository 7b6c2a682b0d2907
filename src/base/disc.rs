//! The blank as a shape: a disc about the origin, in millimeters.

use super::units::Mm;
use std::f32::consts::PI;

/// A disc about the origin. Positions on it are (x, y) in mm, y up, seen from above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    radius: f32,
}

impl Disc {
    /// The disc of this diameter.
    pub fn new(diameter: Mm) -> Self {
        Self { radius: diameter.f32() / 2.0 }
    }

    /// Radius, mm.
    pub fn radius(self) -> f32 {
        self.radius
    }

    /// Area, mm².
    pub fn area(self) -> f32 {
        PI * self.radius * self.radius
    }
}
