//! What a slump as a viscous sheet depends on, and what of it can be computed.

use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::plain;
use crate::recipe::{Form, Mold};
use std::fmt;

/// Friction above this counts as this: glass that is pressed on by its weight alone then hardly slides. (Chosen.)
pub const STICKS: f64 = 2.0;

/// Friction that every piece is reckoned with: it slides freely, since no measurement on kiln wash is known.
pub const SLIDES: f64 = 0.0;

/// The thickest glass, as a share of the radius of its middle, that is still a sheet to reckon with. (Chosen: a plan's disc is at least three times as
/// wide as thick, which is 1.)
const THICKEST: f64 = 1.1;

/// What a slump depends on.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetInputs {
    /// The mold.
    pub mold: Mold,
    /// Radius of the middle of the disc, which ends half a thickness before the round edge, mm.
    pub radius: f64,
    /// Thickness of the disc, mm.
    pub thickness: f64,
    /// Coefficient of friction between glass and mold: 0 slides freely. (What it is on kiln wash is not known.)
    pub friction: f64,
    /// Radius of the rounded lip of a bowl, mm.
    pub lip: f64,
}

/// A measure that no slump can be computed with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SheetFault {
    /// The middle's radius is no number of this range, mm.
    Radius(f64, f64),
    /// The thickness is no number of this range, mm: glass thicker than its disc is wide is no sheet.
    Thickness(f64, f64),
    /// The friction is no number, or less than nothing.
    Friction,
    /// The lip's radius is no number of this range, mm.
    Lip(f64, f64),
    /// The mold's opening is no number of this range, mm.
    Opening(f64, f64),
    /// The mold's depth is no number of this range, mm: no part of a sphere is deeper than half its opening.
    Depth(f64, f64),
    /// The mold's bottom is no number of this range, mm.
    Bottom(f64, f64),
    /// The mold's corner is no number of this range, mm.
    Corner(f64, f64),
}

impl SheetInputs {
    /// Looks whether a slump can be computed with them.
    ///
    /// # Errors
    /// The first measure that is out of range.
    pub fn check(&self) -> Result<(), SheetFault> {
        let (opening, depth) = (self.mold.opening.0, self.mold.depth.0);
        within(self.radius, 1.0, 1000.0, SheetFault::Radius)?;
        within(self.thickness, 0.1, THICKEST * self.radius, SheetFault::Thickness)?;
        if self.friction.is_nan() || self.friction < 0.0 {
            return Err(SheetFault::Friction);
        }
        within(self.lip, 0.1, 100.0, SheetFault::Lip)?;
        within(opening, 2.0, 2000.0, SheetFault::Opening)?;
        match &self.mold.form {
            Form::Bowl | Form::Hump => within(depth, 0.1, opening / 2.0, SheetFault::Depth),
            Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => {
                within(depth, 0.1, opening, SheetFault::Depth)?;
                within(bottom.0, 0.0, opening, SheetFault::Bottom)?;
                within(corner.0, 0.0, 1000.0, SheetFault::Corner)
            }
        }
    }
}

fn within(
    value: f64,
    least: f64,
    most: f64,
    fault: impl Fn(f64, f64) -> SheetFault,
) -> Result<(), SheetFault> {
    if value >= least && value <= most { Ok(()) } else { Err(fault(least, most)) }
}

impl SheetFault {
    /// The same for the maker.
    pub fn notice(self) -> Notice {
        let range =
            |what: &str, (least, most)| format!("{what} must be {} to {} mm.", plain(least), plain(most));
        let (why, remedy) = match self {
            Self::Radius(a, b) => (range("The radius of the disc's middle", (a, b)), "Cut another disc."),
            Self::Thickness(a, b) => (range("The thickness", (a, b)), "Take other sheets."),
            Self::Friction => ("Friction must be 0 or more.".into(), "Give 0 where the glass slides freely."),
            Self::Lip(a, b) => (range("The lip's radius", (a, b)), "Take the usual 2 mm."),
            Self::Opening(a, b) => (range("The mold's opening", (a, b)), "Take another mold."),
            Self::Depth(a, b) => (range("The mold's depth", (a, b)), "Take another mold."),
            Self::Bottom(a, b) => (range("The mold's bottom", (a, b)), "Take another mold."),
            Self::Corner(a, b) => (range("The mold's corner", (a, b)), "Take another mold."),
        };
        Notice::new(Severity::Fault, Step::Slump, "The slump cannot be computed.", why, remedy)
    }
}

impl fmt::Display for SheetFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.notice().fmt(f)
    }
}

impl std::error::Error for SheetFault {}
