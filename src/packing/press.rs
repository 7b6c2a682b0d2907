//! Discs that overlap push each other apart until nothing moves any more: the sum of all squared overlaps made as small as it gets
//! near where they lie, by the limited-memory quasi-Newton method of Nocedal (Math. Comp. 35, 1980).

use super::region::{Place, Region};

/// What may still be spent, in pairs of discs looked at; all else that one look takes counts as some pairs more.
pub type Work = u64;

/// Steps that the method remembers.
const REMEMBERED: usize = 8;
/// Most steps from one start.
const MOST_STEPS: usize = 3000;
/// What one disc costs beside its pairs, in pairs.
const BESIDES: usize = 40;
/// A sum of squared overlaps that is none.
const NONE: f64 = 1e-21;
/// Where the slope's square has come down to this share of the sum, nothing more is to be gained: from a sum that is far from none,
/// and from one that may come to none yet.
const FLAT: (f64, f64) = (1e-4, 1e-9);
/// A sum that may come to none yet.
const NEAR: f64 = 1e-4;

fn flat(sum: f64) -> f64 {
    if sum > NEAR { FLAT.0 } else { FLAT.1 }
}

/// Overlaps of all discs, and which way each is pushed.
struct Pushed {
    sum: f64,
    slope: Vec<f64>,
}

fn pushed(region: Region, at: &[f64], work: &mut Work) -> Pushed {
    let count = at.len() / 2;
    *work = work.saturating_sub((count * count / 2 + BESIDES * count) as u64);
    let (mut sum, mut slope) = (0.0, vec![0.0; at.len()]);
    for i in 0..count {
        let (x, y) = (at[2 * i], at[2 * i + 1]);
        let [inside_x, inside_y] = region.nearest([x, y]);
        let (out_x, out_y) = (x - inside_x, y - inside_y);
        sum += out_x * out_x + out_y * out_y;
        slope[2 * i] += 2.0 * out_x;
        slope[2 * i + 1] += 2.0 * out_y;
        for j in 0..i {
            let (dx, dy) = (x - at[2 * j], y - at[2 * j + 1]);
            let squared = dx * dx + dy * dy;
            if squared >= 1.0 {
                continue;
            }
            let apart = squared.sqrt().max(1e-12);
            let over = 1.0 - apart;
            sum += over * over;
            let (push_x, push_y) = (2.0 * over * dx / apart, 2.0 * over * dy / apart);
            slope[2 * i] -= push_x;
            slope[2 * i + 1] -= push_y;
            slope[2 * j] += push_x;
            slope[2 * j + 1] += push_y;
        }
    }
    Pushed { sum, slope }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// How far each step went and how the slope changed along it, newest last.
struct Steps(Vec<(Vec<f64>, Vec<f64>)>);

impl Steps {
    /// Where to go from this slope.
    fn way(&self, slope: &[f64]) -> Vec<f64> {
        let mut way: Vec<f64> = slope.iter().map(|part| -part).collect();
        let mut weights = Vec::new();
        for (step, change) in self.0.iter().rev() {
            let weight = dot(step, &way) / dot(step, change);
            add(&mut way, change, -weight);
            weights.push(weight);
        }
        let scale = self.0.last().map_or(0.25, |(step, change)| dot(step, change) / dot(change, change));
        way.iter_mut().for_each(|part| *part *= scale);
        for ((step, change), weight) in self.0.iter().zip(weights.into_iter().rev()) {
            let back = dot(change, &way) / dot(step, change);
            add(&mut way, step, weight - back);
        }
        way
    }

    fn remember(&mut self, step: Vec<f64>, change: Vec<f64>) {
        if dot(&step, &change) > 1e-30 {
            if self.0.len() == REMEMBERED {
                self.0.remove(0);
            }
            self.0.push((step, change));
        }
    }
}

fn add(to: &mut [f64], what: &[f64], times: f64) {
    to.iter_mut().zip(what).for_each(|(to, what)| *to += times * what);
}

/// Lets the discs push each other apart, and gives what is left of the sum of their squared overlaps.
pub fn press(region: Region, places: &mut [Place], work: &mut Work) -> f64 {
    let mut at: Vec<f64> = places.iter().flatten().copied().collect();
    let mut here = pushed(region, &at, work);
    let mut steps = Steps(Vec::new());
    for _ in 0..MOST_STEPS {
        if here.sum < NONE || *work == 0 || dot(&here.slope, &here.slope) < flat(here.sum) * here.sum {
            break;
        }
        let mut way = steps.way(&here.slope);
        if dot(&way, &here.slope) >= 0.0 {
            steps.0.clear();
            way = steps.way(&here.slope);
        }
        let Some((there, share)) = go(region, &at, &here, &way, work) else { break };
        add(&mut at, &way, share);
        way.iter_mut().for_each(|part| *part *= share);
        let change = there.slope.iter().zip(&here.slope).map(|(new, old)| new - old).collect();
        steps.remember(way, change);
        here = there;
    }
    for (place, at) in places.iter_mut().zip(at.chunks_exact(2)) {
        *place = [at[0], at[1]];
    }
    here.sum
}

/// How much of a way to go: the whole, or a half of it as often as it takes to come down.
fn go(region: Region, at: &[f64], here: &Pushed, way: &[f64], work: &mut Work) -> Option<(Pushed, f64)> {
    let falls = dot(way, &here.slope);
    let mut share = 1.0;
    for _ in 0..20 {
        let mut next = at.to_vec();
        add(&mut next, way, share);
        let there = pushed(region, &next, work);
        if there.sum <= here.sum + 1e-4 * share * falls {
            return Some((there, share));
        }
        share *= 0.5;
    }
    None
}
