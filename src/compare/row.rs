//! A color of a piece as foretold and as it came out. Plain data.

use crate::base::units::Mm;
use crate::color::difference::Lab;
use crate::color::toward::Off;
use serde::{Deserialize, Serialize};

/// A color of the piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// The coats that lie there, bottom to top, by id; none where the blank is bare.
    pub coats: Vec<u32>,
    /// The share of the disc that was foretold, 0 to 1.
    pub share: f64,
    /// What was foretold.
    pub foretold: Lab,
    /// As near as a single layout and a photo tell, CIEDE2000.
    pub near: f64,
    /// What came out; none if it is not seen in the photo.
    pub fired: Option<Fired>,
}

/// What a color came out as.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fired {
    /// The color.
    pub color: Lab,
    /// On which share of the disc.
    pub share: f64,
    /// How far that is from the forecast, CIEDE2000.
    pub apart: f64,
    /// What it says.
    pub says: Says,
}

impl Row {
    /// In which direction it came out, if it is seen.
    pub fn off(&self) -> Option<Off> {
        self.fired.map(|fired| Off::new(fired.color, self.foretold))
    }

    /// Whether it came out otherwise than any layout would.
    pub fn is_off(&self) -> bool {
        self.apart() >= self.near
    }

    /// How far it is off, 0 if it is not seen.
    pub fn apart(&self) -> f64 {
        self.fired.map_or(0.0, |fired| fired.apart)
    }
}

/// What a color says.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Says {
    /// It came out as it was reckoned, as near as a photo tells.
    AsReckoned,
    /// It is as if its topmost coat lay so deep, loose.
    AsIf(Mm),
    /// So deep comes nearest, and yet the color is another one: another jar.
    AsIfAndOther(Mm),
    /// No depth makes it so: another jar.
    Other,
    /// A coat below came out otherwise, which shows here.
    Follows(u32),
    /// Nothing lies there: the photo's white, or its light.
    Light,
}
