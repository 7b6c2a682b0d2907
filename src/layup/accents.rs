//! Where the accents lie: small frit set in a ring near the rim.

use crate::base::scalar::{PI, ln, sin_cos};
use crate::base::seed::{Purpose, Seed};
use crate::recipe::plan::PlannedAccents;
use rand::RngExt;

/// One piece of frit, placed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accent {
    /// Middle, mm from the disc's, to the right.
    pub x: f32,
    /// Middle, mm from the disc's, up.
    pub y: f32,
    /// Its width, mm: the sieve size it passed.
    pub size: f32,
    /// Which of the plan's accent glasses it is.
    pub glass: usize,
}

/// Places the accents: gaps along the ring are the least gap plus a share of what is left over, even or as chance
/// will have it (Dirichlet(1, ..., 1), the exact law of points that keep their distance on a circle).
pub fn place(plan: &PlannedAccents, seed: Seed) -> Vec<Accent> {
    let mut rng = seed.stream(Purpose::Accents);
    let count = plan.count as usize;
    let round = 2.0 * PI * plan.ring;
    let free = round - plan.count as f32 * plan.least_gap;
    let mut chances: Vec<f32> = (0..count).map(|_| -ln(1.0 - rng.random::<f64>()) as f32).collect();
    let sum: f32 = chances.iter().sum::<f32>().max(1e-9);
    for chance in &mut chances {
        *chance = plan.looseness * *chance / sum + (1.0 - plan.looseness) / plan.count as f32;
    }
    let mut along = round * rng.random::<f32>();
    chances
        .into_iter()
        .map(|share| {
            along += plan.least_gap + free * share;
            let (sin, cos) = sin_cos(f64::from(along / plan.ring));
            let radius = plan.ring + plan.band * (rng.random::<f32>() - 0.5);
            let size = plan.sizes.0 + (plan.sizes.1 - plan.sizes.0) * rng.random::<f32>();
            let glass = pick(&plan.glasses, rng.random::<f32>());
            Accent { x: radius * cos as f32, y: radius * sin as f32, size, glass }
        })
        .collect()
}

/// The glass whose stretch of the shares `u` (0 to 1) falls in.
fn pick(glasses: &[(&'static str, f32)], u: f32) -> usize {
    let mut upto = 0.0;
    let found = glasses.iter().position(|(_, share)| {
        upto += share;
        u < upto
    });
    found.unwrap_or(glasses.len().saturating_sub(1))
}
