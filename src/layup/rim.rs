//! The edge of the powder at the bare rim, as a hand leaves it: drifting in and out, here and there wiped by a thumb or
//! dusted to the edge, and a little ragged everywhere. All numbers of its shape are chosen by eye.

use super::field::spline;
use crate::base::lanes::Number;
use crate::base::scalar::{Bounds, PI, atan2, diamond_turn, lerp, smoothstep};
use rand::{Rng, RngExt};

/// Lengths along the rim that the edge wanders over, mm, and how far, relative to each other: no length stands out.
const WANDERS: [(f32, f32); 7] =
    [(90.0, 0.32), (47.0, 0.42), (25.0, 0.46), (13.0, 0.48), (6.6, 0.48), (3.4, 0.42), (1.8, 0.32)];
/// Rim to one thumb's mark, mm.
const PER_THUMB: f32 = 150.0;
/// Half the width of a thumb's mark, mm, and how softly it ends.
const THUMB: (f32, f32) = (6.0, 9.0);
const THUMB_ENDS: f32 = 3.0;
/// How far a thumb moves the edge, in deviations of the wandering.
const THUMB_MOVES: (f32, f32) = (2.0, 3.8);
/// Points of the table around the rim.
const POINTS: usize = 2048;

/// How far the powder's edge lies within the bare rim, by direction.
#[derive(Debug)]
pub(super) struct Rim {
    /// mm, around the rim from the right by the left and back, the first point once more at the end.
    margins: Vec<f32>,
    /// The farthest that the edge lies from the bare rim, mm.
    pub(super) widest: f32,
}

impl Rim {
    /// The edge on a disc of this radius, mm, that wanders by `raggedness` mm (standard deviation, thumbs apart).
    pub(super) fn new(rng: &mut impl Rng, radius: f32, raggedness: f32) -> Self {
        let around = 2.0 * PI * radius;
        let directions: Vec<f32> = (0..POINTS).map(direction).collect();
        let mut margins = vec![0.0; POINTS];
        for (length, far) in WANDERS {
            Wander::random(rng, around / length).add(&directions, far, &mut margins);
        }
        // The deviations of the lengths add up by their squares.
        let squares: f32 = WANDERS.iter().map(|(_, far)| far * far).sum();
        let even = raggedness / squares.sqrt();
        margins.iter_mut().for_each(|margin| *margin *= even);
        for _ in 0..(around / PER_THUMB + rng.random::<f32>()) as usize {
            thumb(rng, around, raggedness, &directions, &mut margins);
        }
        let mean = margins.iter().sum::<f32>() / POINTS as f32;
        margins.iter_mut().for_each(|margin| *margin -= mean);
        margins.push(margins[0]);
        let widest = margins.iter().fold(0.0f32, |most, margin| most.at_least(margin.abs()));
        Self { margins, widest }
    }

    /// How much further within than the bare rim the powder's edge lies in the direction of (x, y), mm.
    #[inline]
    pub(super) fn margin<T: Number>(&self, (x, y): (T, T)) -> T {
        // One turn is a point of the table too: the last one.
        T::along(&self.margins, (diamond_turn(x, y) * POINTS as f32).point_among(POINTS + 1))
    }
}

/// The angle of a point of the table, as a share of the way around.
fn direction(point: usize) -> f32 {
    let quarters = 4.0 * point as f64 / POINTS as f64;
    let (quarter, along) = (quarters as usize, quarters.fract());
    let (x, y) = match quarter {
        0 => (1.0 - along, along),
        1 => (-along, 1.0 - along),
        2 => (along - 1.0, -along),
        _ => (along, along - 1.0),
    };
    (atan2(y, x) / (2.0 * f64::from(PI))).rem_euclid(1.0) as f32
}

/// Normal numbers at even steps around the rim, with a spline through them: without a seam.
struct Wander {
    knots: Vec<f32>,
    shift: f32,
}

impl Wander {
    /// The root of the mean square of the spline's weights, inverted: so the numbers keep their deviation.
    const EVEN: f32 = 1.444_337;

    fn random(rng: &mut impl Rng, count: f32) -> Self {
        let normal = |rng: &mut dyn Rng| super::field::hashed_normal(rng.next_u32());
        let knots = (0..(count + 0.5).at_least(3.0) as usize).map(|_| normal(rng)).collect();
        Self { knots, shift: rng.random() }
    }

    fn add(&self, directions: &[f32], far: f32, margins: &mut [f32]) {
        let n = self.knots.len();
        for (margin, direction) in margins.iter_mut().zip(directions) {
            let at = direction * n as f32 + self.shift;
            let i = at as usize;
            let weights = spline(at - i as f32);
            let value: f32 = (0..4).map(|k| weights[k] * self.knots[(i + k) % n]).sum();
            *margin += far * Self::EVEN * value;
        }
    }
}

/// A thumb's mark somewhere on the rim: wiped bare, or dusted to the edge.
fn thumb(rng: &mut impl Rng, around: f32, raggedness: f32, directions: &[f32], margins: &mut [f32]) {
    let (from, to) = THUMB_MOVES;
    let by = raggedness * lerp(from, to, rng.random());
    let by = if rng.random() { by } else { -by };
    let (middle, half) = (rng.random::<f32>(), lerp(THUMB.0, THUMB.1, rng.random()));
    for (margin, direction) in margins.iter_mut().zip(directions) {
        let turns = (direction - middle).abs();
        let away = around * turns.at_most(1.0 - turns);
        *margin += by * (1.0 - smoothstep(half - THUMB_ENDS, half + THUMB_ENDS, away));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::scalar::sin_cos;
    use crate::base::seed::{Purpose, Seed};

    fn rim(seed: u32) -> Rim {
        Rim::new(&mut Seed(seed).stream(Purpose::Sponge), 80.0, 0.35)
    }

    fn around(rim: &Rim, turns: f64) -> f64 {
        let (sin, cos) = sin_cos(2.0 * f64::from(PI) * turns);
        rim.margin((cos as f32, sin as f32)).into()
    }

    /// Power of the first `most` harmonics around the rim, mm².
    fn spectrum(rim: &Rim, most: usize) -> Vec<f64> {
        let n = 4096;
        let margins: Vec<f64> = (0..n).map(|k| around(rim, f64::from(k) / f64::from(n))).collect();
        let waves: Vec<(f64, f64)> =
            (0..n).map(|k| sin_cos(2.0 * f64::from(PI) * f64::from(k) / f64::from(n))).collect();
        (1..=most)
            .map(|m| {
                let (mut s, mut c) = (0.0, 0.0);
                for (k, margin) in margins.iter().enumerate() {
                    let (sin, cos) = waves[k * m % waves.len()];
                    (s, c) = (s + margin * sin, c + margin * cos);
                }
                2.0 * (s * s + c * c) / (f64::from(n) * f64::from(n))
            })
            .collect()
    }

    /// No length of wave stands out: no line has half of one rim's power, and neither a line nor an octave much in the mean.
    #[test]
    fn no_period_stands_out_around_the_rim() {
        let seeds = 40;
        let mut mean = vec![0.0; 255];
        let mut worst = 0.0f64;
        for seed in 0..seeds {
            let power = spectrum(&rim(seed), 255);
            let total: f64 = power.iter().sum();
            worst = worst.max(power.iter().fold(0.0, |most, line| f64::max(most, *line)) / total);
            mean.iter_mut().zip(&power).for_each(|(sum, line)| *sum += line / total / f64::from(seeds));
        }
        let line = mean.iter().fold(0.0, |most, line| f64::max(most, *line));
        let octaves: Vec<f64> = (0..8).map(|k| mean[(1 << k) - 1..(2 << k) - 1].iter().sum()).collect();
        println!(
            "strongest line: {worst:.2} of one rim's power, {line:.3} in the mean; octaves {octaves:.2?}"
        );
        assert!(worst < 0.5 && line < 0.12, "{worst} {line}");
        assert!(octaves.iter().all(|share| *share < 0.3), "{octaves:.2?}");
        assert!(octaves[1..6].iter().all(|share| *share > 0.05), "{octaves:.2?}");
    }

    #[test]
    fn the_rim_has_no_seam() {
        for seed in 0..20 {
            let rim = rim(seed);
            for turns in [0.0, 0.25, 0.5, 0.75] {
                let step = around(&rim, turns + 1e-5) - around(&rim, turns - 1e-5);
                assert!(step.abs() < 0.01, "seed {seed}, at {turns}: {step}");
            }
        }
    }

    /// As ragged as asked, thumbs apart: the median deviation does not see them.
    #[test]
    fn the_edge_wanders_as_far_as_asked_about_the_bare_rim() {
        let mut all = Vec::new();
        for seed in 0..60 {
            let rim = rim(seed);
            let margins: Vec<f64> = (0..1000).map(|k| around(&rim, f64::from(k) / 1000.0)).collect();
            // The table's points are closer together along the axes.
            let mean = margins.iter().sum::<f64>() / 1000.0;
            assert!(mean.abs() < 0.1, "seed {seed}: {mean}");
            assert!(margins.iter().all(|margin| margin.abs() <= f64::from(rim.widest)));
            all.extend(margins.into_iter().map(f64::abs));
        }
        all.sort_by(f64::total_cmp);
        let deviation = all[all.len() / 2] / 0.6745;
        println!("asked 0.35 mm, wanders {deviation:.3}");
        assert!((deviation / 0.35 - 1.0).abs() < 0.12, "{deviation}");
        let marked = all.iter().filter(|margin| **margin > 1.1).count() as f64 / all.len() as f64;
        assert!((0.02..0.15).contains(&marked), "thumbs mark {marked} of the rim");
    }
}
