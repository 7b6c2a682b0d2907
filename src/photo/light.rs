//! The light on a photo, told from a marked white: how bright it is in each channel, and how it falls off from one side to the other.

use super::fault;
use super::frame::Frame;
use super::pixels::{Pixels, Sample, clipped};
use super::plane::Plane;
use super::shadow;
use crate::base::notice::Notice;
use crate::color::srgb::luminance;

/// The light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Light {
    /// What the white shows in its middle, linear, red green blue.
    level: [f64; 3],
    /// How that falls off.
    plane: Plane,
}

/// Of a white more than this share must not be clipped (by eye; no source).
const CLIPPED: f32 = 0.02;
/// A white whose light is below this tells more of the camera's noise than of the light (by eye; no source).
const DARK: f64 = 0.02;

impl Light {
    /// The light by a white that is marked.
    ///
    /// # Errors
    /// Why the white cannot be taken for one: too small, too dark, clipped, in shadow.
    pub fn on(photo: &Pixels, white: &Frame) -> Result<Self, Notice> {
        let samples = photo.samples(white);
        if samples.len() < fault::FEWEST {
            return Err(fault::too_small("White"));
        }
        if clipped(&samples) > CLIPPED {
            return Err(fault::clipped("White"));
        }
        if mean(&samples, |sample| luminance(sample.light).into()) < DARK {
            return Err(fault::too_dark());
        }
        let (plane, kept) = Plane::fitted(&samples);
        match shadow::on(&plane, &samples, &white.kept_on(photo.size())) {
            Some(shadow) => Err(fault::in_shadow(shadow)),
            None => Ok(Self { level: level(&plane, &kept), plane }),
        }
    }

    /// The light of a photo without a white: colors are as the camera wrote them.
    pub fn as_written() -> Self {
        Self { level: [1.0; 3], plane: Plane::flat() }
    }

    /// What the white would show at a place, linear, red green blue.
    pub fn at(&self, place: (f64, f64)) -> [f64; 3] {
        let rise = self.plane.rise(place);
        self.level.map(|level| level * rise)
    }

    /// By which share the darkest corner of all these frames is darker than their brightest one.
    pub fn falls_off(&self, frames: &[Frame]) -> f64 {
        let rises = frames.iter().flat_map(Frame::corners).map(|corner| self.plane.rise(corner));
        let (least, most) =
            rises.fold((f64::INFINITY, 0.0_f64), |(least, most), rise| (least.min(rise), most.max(rise)));
        if most > 0.0 { 1.0 - least / most } else { 0.0 }
    }
}

/// The mean light of each channel, its fall-off taken out.
fn level(plane: &Plane, samples: &[Sample]) -> [f64; 3] {
    [0, 1, 2].map(|channel| mean(samples, |sample| f64::from(sample.light[channel]) / plane.rise(sample.at)))
}

fn mean(samples: &[Sample], of: impl Fn(&Sample) -> f64) -> f64 {
    samples.iter().map(of).sum::<f64>() / samples.len().max(1) as f64
}
