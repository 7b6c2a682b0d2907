//! The color of a marked place, as it would look beside a perfect white in even daylight.

use super::fault::{self, FEWEST};
use super::frame::Frame;
use super::light::Light;
use super::pixels::{Pixels, Sample, clipped};
use crate::base::middle::middle;
use crate::base::notice::Notice;
use crate::color::difference::{Lab, de2000, to_lab};
use crate::color::srgb::Linear;

/// What was read in a frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Its mean color, mixed as light is, specks left out; a perfect white is L* 100.
    pub color: Lab,
    /// How far its pixels lie about that color, CIEDE2000: half of them are nearer.
    pub spread: f64,
    /// Share of its pixels that are as bright as they go.
    pub clipped: f32,
    /// Whether it is brighter in some channel than a perfect white would be there.
    pub brighter: bool,
}

/// Of a place more than this share must not be clipped (by eye; no source).
const CLIPPED: f32 = 0.05;
/// Pixels further off than so many times the spread are glare, dust or a scratch, and left out.
const SPECK: f64 = 4.0;
/// What a perfect white may seem to exceed itself by, for noise.
const BRIGHTER: f32 = 1.02;

/// Reads the frame of what is called so, in this light; the white that told the light sends back this share of it.
///
/// # Errors
/// Why no color can be told: too few pixels, or too bright.
pub fn read(
    photo: &Pixels,
    (name, frame): (&str, &Frame),
    light: &Light,
    white: f64,
) -> Result<Reading, Notice> {
    let samples = photo.samples(frame);
    if samples.len() < FEWEST {
        return Err(fault::too_small(name));
    }
    let clipped = clipped(&samples);
    if clipped > CLIPPED {
        return Err(fault::clipped(name));
    }
    let seen: Vec<Linear> = samples.iter().map(|sample| corrected(sample, light, white)).collect();
    let near = without_specks(&seen);
    let mean = mean(&near);
    let (color, brighter) = (to_lab(mean), mean.iter().any(|channel| *channel > BRIGHTER));
    Ok(Reading { color, spread: middle(apart(&near, color)).unwrap_or(0.0), clipped, brighter })
}

/// What a pixel would show in even light under which a perfect white shows 1.
pub(super) fn corrected(sample: &Sample, light: &Light, white: f64) -> Linear {
    let there = light.at(sample.at);
    [0, 1, 2].map(|channel| (f64::from(sample.light[channel]) * white / there[channel].max(1e-6)) as f32)
}

/// Those that are not far from all others.
fn without_specks(seen: &[Linear]) -> Vec<Linear> {
    let off = apart(seen, to_lab(mean(seen)));
    let bound = SPECK * middle(off.clone()).unwrap_or(0.0).max(0.5);
    seen.iter().zip(off).filter(|(_, off)| *off <= bound).map(|(light, _)| *light).collect()
}

fn apart(seen: &[Linear], from: Lab) -> Vec<f64> {
    seen.iter().map(|light| de2000(to_lab(*light), from)).collect()
}

fn mean(seen: &[Linear]) -> Linear {
    let count = seen.len().max(1) as f64;
    [0, 1, 2].map(|channel| (seen.iter().map(|light| f64::from(light[channel])).sum::<f64>() / count) as f32)
}
