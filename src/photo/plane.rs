//! How light falls off over a photo: the plane through the logarithms of luminance, so by equal shares over equal ways.

use super::pixels::Sample;
use crate::base::middle::middle;
use crate::base::scalar::{exp, ln};
use crate::color::srgb::luminance;

/// The plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// The logarithm of luminance at `from`.
    height: f64,
    /// Where that is, pixels.
    from: (f64, f64),
    /// What it rises by for each pixel to the right, and down.
    slope: (f64, f64),
}

/// Pixels off by more than so many times the middle deviation are specks, and left out.
const SPECK: f64 = 4.0;
/// The middle deviation is taken to be no smaller than this, about a code of a bright white.
const NOISE: f64 = 0.005;

impl Plane {
    /// Light that is the same everywhere.
    pub fn flat() -> Self {
        Self { height: 0.0, from: (0.0, 0.0), slope: (0.0, 0.0) }
    }

    /// By least squares, specks left out; with it the samples that are none.
    pub fn fitted(samples: &[Sample]) -> (Self, Vec<Sample>) {
        let whole = Self::through(samples);
        let off: Vec<f64> = samples.iter().map(|sample| whole.off(sample).abs()).collect();
        let bound = SPECK * middle(off.clone()).map_or(NOISE, |middle| middle.max(NOISE));
        let near = samples.iter().zip(off).filter(|(_, off)| *off <= bound);
        let kept: Vec<Sample> = near.map(|(sample, _)| *sample).collect();
        (Self::through(&kept), kept)
    }

    /// By least squares.
    fn through(samples: &[Sample]) -> Self {
        let count = samples.len().max(1) as f64;
        let mean = |of: &dyn Fn(&Sample) -> f64| samples.iter().map(of).sum::<f64>() / count;
        let from = (mean(&|sample| sample.at.0), mean(&|sample| sample.at.1));
        let height = mean(&log_light);
        let sum = |of: &dyn Fn(f64, f64, f64) -> f64| {
            mean(&|sample| of(sample.at.0 - from.0, sample.at.1 - from.1, log_light(sample) - height))
        };
        let (xx, xy, yy) = (sum(&|x, _, _| x * x), sum(&|x, y, _| x * y), sum(&|_, y, _| y * y));
        let (xz, yz) = (sum(&|x, _, z| x * z), sum(&|_, y, z| y * z));
        let det = xx * yy - xy * xy;
        let slope =
            if det > 1e-9 { ((xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det) } else { (0.0, 0.0) };
        Self { height, from, slope }
    }

    /// How many times brighter it is at a place than in its middle.
    pub fn rise(&self, (x, y): (f64, f64)) -> f64 {
        exp((x - self.from.0) * self.slope.0 + (y - self.from.1) * self.slope.1)
    }

    /// How far a sample's luminance is off, as a logarithm.
    pub fn off(&self, sample: &Sample) -> f64 {
        log_light(sample) - self.height - ln(self.rise(sample.at))
    }
}

fn log_light(sample: &Sample) -> f64 {
    ln(f64::from(luminance(sample.light)).max(1e-4))
}
