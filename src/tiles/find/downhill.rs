//! A way's depths varied until nothing near is nearer: by steps of a share of the depth, in all directions of one or two
//! depths, halved when none of them helps (the pattern search of Hooke & Jeeves 1961; from memory).

use super::way::{DEPTHS, Way};
use crate::base::scalar::exp;

/// All directions of two depths; one depth uses the first two.
const DIRECTIONS: [[f64; 2]; 8] =
    [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0], [1.0, 1.0], [-1.0, -1.0], [1.0, -1.0], [-1.0, 1.0]];
/// Steps of one size, at most.
const ROUNDS: usize = 40;

/// The nearest way and how far it is off; steps go from the first to the second size, in the logarithm of depth.
pub fn downhill(way: Way, (first, last): (f64, f64), off: impl Fn(&Way) -> f64) -> (Way, f64) {
    let mut best = (way, off(&way));
    let mut step = first;
    while step >= last {
        for _ in 0..ROUNDS {
            let before = best.1;
            for direction in directions(best.0) {
                let mut way = best.0;
                for (depth, share) in way.depths().iter_mut().zip(direction) {
                    *depth = (*depth * exp(share * step)).clamp(DEPTHS.0, DEPTHS.1);
                }
                let off = off(&way);
                if off < best.1 {
                    best = (way, off);
                }
            }
            if best.1 >= before {
                break;
            }
        }
        step *= 0.5;
    }
    best
}

fn directions(mut way: Way) -> &'static [[f64; 2]] {
    if way.depths().len() == 1 { &DIRECTIONS[..2] } else { &DIRECTIONS }
}
