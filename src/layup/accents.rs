//! Where the accents lie: small frit set in a ring near the rim.

use crate::base::scalar::{Bounds, PI, ln, sin_cos};
use crate::base::seed::{Purpose, Seed};
use crate::glass::kind::Glass;
use crate::recipe::WhichAccent;
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
    /// What to call it by to move it or to take it off.
    pub which: WhichAccent,
    /// Whether the hand moved or added it.
    pub by_hand: bool,
}

/// Places the accents: as they fall, then as the hand left them.
pub fn place(plan: &PlannedAccents, seed: Seed) -> Vec<Accent> {
    let layout = &plan.layout;
    let mut accents = fallen(plan, layout.locked_to.unwrap_or(seed));
    for moved in &layout.moved {
        let set = WhichAccent::Set(moved.number);
        if let Some(accent) = accents.iter_mut().find(|accent| accent.which == set) {
            (accent.x, accent.y, accent.by_hand) = (moved.x as f32, moved.y as f32, true);
        }
    }
    accents.retain(|accent| !layout.taken_off.iter().any(|number| accent.which == WhichAccent::Set(*number)));
    accents.extend(layout.added.iter().enumerate().map(|(at, added)| {
        let named = |(glass, _): &(Glass, f32)| added.glass.as_ref() == Some(&glass.id);
        Accent {
            x: added.x as f32,
            y: added.y as f32,
            size: added.size.f32(),
            glass: plan.glasses.iter().position(named).unwrap_or(0),
            which: WhichAccent::Added(at),
            by_hand: true,
        }
    }));
    accents
}

/// The accent at a place on the disc or within so many mm of its edge, the nearest first, as a position in the list.
pub fn accent_at(accents: &[Accent], x: f32, y: f32, within: f32) -> Option<usize> {
    let off = |accent: &Accent| {
        let (dx, dy) = (accent.x - x, accent.y - y);
        (dx * dx + dy * dy).sqrt() - 0.5 * accent.size
    };
    let near = accents.iter().enumerate().filter(|(_, accent)| off(accent) <= within);
    near.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b))).map(|(at, _)| at)
}

/// The accents as they fall: gaps along the ring are the least gap plus a share of what is left over, even or as chance
/// will have it (Dirichlet(1, ..., 1), the exact law of points that keep their distance on a circle).
fn fallen(plan: &PlannedAccents, seed: Seed) -> Vec<Accent> {
    let mut rng = seed.stream(Purpose::Accents);
    let count = plan.count as usize;
    let round = 2.0 * PI * plan.ring;
    let free = round - plan.count as f32 * plan.least_gap;
    let mut chances: Vec<f32> = (0..count).map(|_| -ln(1.0 - rng.random::<f64>()) as f32).collect();
    let sum: f32 = chances.iter().sum::<f32>().at_least(1e-9);
    for chance in &mut chances {
        *chance = plan.looseness * *chance / sum + (1.0 - plan.looseness) / plan.count as f32;
    }
    let mut along = round * rng.random::<f32>();
    chances
        .into_iter()
        .zip(1..)
        .map(|(share, number)| {
            along += plan.least_gap + free * share;
            let (sin, cos) = sin_cos(f64::from(along / plan.ring));
            let radius = plan.ring + plan.band * (rng.random::<f32>() - 0.5);
            let size = plan.sizes.0 + (plan.sizes.1 - plan.sizes.0) * rng.random::<f32>();
            let glass = pick(&plan.glasses, rng.random::<f32>());
            let (x, y) = (radius * cos as f32, radius * sin as f32);
            Accent { x, y, size, glass, which: WhichAccent::Set(number), by_hand: false }
        })
        .collect()
}

/// The glass whose stretch of the shares `u` (0 to 1) falls in.
fn pick(glasses: &[(Glass, f32)], u: f32) -> usize {
    let mut upto = 0.0;
    let found = glasses.iter().position(|(_, share)| {
        upto += share;
        u < upto
    });
    found.unwrap_or(glasses.len().saturating_sub(1))
}
