//! A wanted color found among jars: which of them, alone, blended or one over another, and how deep.
//!
//! Every way is looked at on a coarse grid of depths first, then the best grid place is followed downhill, a little for all and to the
//! end for those that came nearest.

mod coats;
mod downhill;
mod laid;
mod under;
mod way;

use super::sureness::{By, together};
use crate::color::difference::{Lab, de2000};
use crate::color::toward::Off;
use downhill::downhill;
use laid::{Laid, sort};
use serde::{Deserialize, Serialize};
pub use under::Under;
pub use way::{DEPTHS, Fired, Jar, PARTS, Way};

/// A way that was found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// What to sift.
    pub way: Way,
    /// What it fires to.
    pub color: Lab,
    /// How far that is from what was wanted, CIEDE2000.
    pub apart: f64,
    /// In which direction.
    pub off: Off,
    /// How far its forecast may be off, CIEDE2000 (see `tiles::sureness`); none if it takes a glass that is made up.
    pub sure: Option<f32>,
}

/// So many ways with two jars are worked out to the end and returned.
const MOST: usize = 60;
/// Two jars must be nearer by this than either alone, CIEDE2000, to be worth a second jar.
const WORTH: f64 = 0.1;

/// The ways that come nearest to `wanted` on what lies `under` them, nearest first; of those that are as near to a tenth, fewer jars
/// first. Every jar alone is among them; of two jars together, the nearest, if `two` are allowed.
pub fn find(wanted: Lab, jars: &[Jar], under: &Under, two: bool) -> Vec<Found> {
    let packed = |jar: &Jar| (1e-3..=1.0).contains(&jar.packing);
    if !wanted.iter().all(|x| x.is_finite()) || !jars.iter().all(packed) {
        return Vec::new();
    }
    let laid = Laid::new(jars, under);
    let mut found: Vec<Found> =
        laid.alone(wanted).into_iter().map(|(way, _)| to_the_end(way, wanted, &laid, jars, under)).collect();
    if two {
        let alone: Vec<f64> = found.iter().map(|found| found.apart).collect();
        let mut ways = laid.blended(wanted);
        ways.extend(laid.over(wanted));
        sort(&mut ways);
        ways.truncate(MOST);
        let pairs = ways.into_iter().map(|(way, _)| to_the_end(way, wanted, &laid, jars, under));
        let worth = |pair: &Found| pair.way.jars().iter().all(|jar| pair.apart < alone[*jar] - WORTH);
        found.extend(pairs.filter(worth));
    }
    found.sort_by(|one, other| {
        let order = |found: &Found| ((10.0 * found.apart).round() as u64, found.way.jars().len());
        order(one).cmp(&order(other)).then(one.apart.total_cmp(&other.apart))
    });
    nearest_parts(found)
}

/// Of one blend in other parts, the nearest.
fn nearest_parts(sorted: Vec<Found>) -> Vec<Found> {
    let mut kept: Vec<Found> = Vec::new();
    for found in sorted {
        let again = |other: &Found| match (other.way, found.way) {
            (Way::Blended { jars: one, .. }, Way::Blended { jars: other, .. }) => one == other,
            _ => false,
        };
        if !kept.iter().any(again) {
            kept.push(found);
        }
    }
    kept
}

fn to_the_end(way: Way, wanted: Lab, laid: &Laid, jars: &[Jar], under: &Under) -> Found {
    let (way, _) = downhill(way, (0.05, 0.003), |way| de2000(laid.color(way), wanted));
    let color = laid.exact(&way);
    let sure = together(way.each().into_iter().map(|(jar, depth)| {
        jars[jar].sureness.at(depth as f32, if matches!(under, Under::Day(_)) { By::Day } else { By::Lit })
    }));
    Found { way, color, apart: de2000(color, wanted), off: Off::new(color, wanted), sure }
}
