//! Whether a marked white lies in shadow, all or part of it, and at which side.

use super::frame::Frame;
use super::pixels::Sample;
use super::plane::Plane;
use crate::color::srgb::luminance;

/// A white that is uneven by more than this share, smooth fall-off aside, lies partly in shadow (by eye; no source).
const UNEVEN: f64 = 0.06;
/// Light that falls off by more than this over the white itself is light of two kinds (by eye; no source).
const STEEP: f64 = 0.35;
/// Parts of a side in which a shadow is looked for.
const PARTS: usize = 4;
/// Fewer pixels of a part do not tell it from noise.
const FEWEST: f64 = 3.0;

/// A shadow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shadow {
    /// How much darker the darkest side is than the brightest one, a share.
    pub darker: f64,
    /// Where.
    pub side: &'static str,
}

/// The shadow on a white, by the plane through its samples; none if it is lit evenly enough.
pub fn on(plane: &Plane, samples: &[Sample], white: &Frame) -> Option<Shadow> {
    let shadow = darkest_side(samples, white);
    (unevenness(plane, samples, white) > UNEVEN || shadow.darker > STEEP).then_some(shadow)
}

/// By how much the parts of a white are off the plane at most, in the mean of each.
fn unevenness(plane: &Plane, samples: &[Sample], white: &Frame) -> f64 {
    let mut parts = [[(0.0, 0.0); PARTS]; PARTS];
    for sample in samples {
        let (column, row) = part(sample, white);
        let (sum, count) = &mut parts[row][column];
        (*sum, *count) = (*sum + plane.off(sample), *count + 1.0);
    }
    let told = parts.iter().flatten().filter(|(_, count)| *count >= FEWEST);
    told.map(|(sum, count)| (sum / count).abs()).fold(0.0, f64::max)
}

fn darkest_side(samples: &[Sample], white: &Frame) -> Shadow {
    let last = PARTS - 1;
    let side = |name: &'static str, of: fn((usize, usize), usize) -> bool| {
        let there = samples.iter().filter(|sample| of(part(sample, white), last));
        let (sum, count) = there
            .fold((0.0, 0.0), |(sum, count), one| (sum + f64::from(luminance(one.light)), count + 1.0_f64));
        (sum / count.max(1.0), name)
    };
    let mut sides = [
        side("at its left", |(column, _), _| column == 0),
        side("at its right", |(column, _), last| column == last),
        side("at its top", |(_, row), _| row == 0),
        side("at its bottom", |(_, row), last| row == last),
    ];
    sides.sort_by(|one, other| one.0.total_cmp(&other.0));
    Shadow { darker: 1.0 - sides[0].0 / sides[last].0.max(1e-6), side: sides[0].1 }
}

/// In which part of the white a sample lies, counted from the left and from the top.
fn part(sample: &Sample, white: &Frame) -> (usize, usize) {
    let of = |at: f64, start: i32, length: i32| {
        let share = (at - f64::from(start)) / f64::from(length.max(1));
        ((share * PARTS as f64) as usize).min(PARTS - 1)
    };
    (of(sample.at.0, white.left, white.wide), of(sample.at.1, white.top, white.high))
}
