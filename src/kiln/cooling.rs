//! The wall that cools as the owner has read it.

use super::data::{Kiln, ROOM, Reading};
use super::wall::{Heat, MOST_OFF, Wall};
use crate::base::scalar::{exp, ln};
use serde::{Deserialize, Serialize};

/// Steps of the search: the factor is then good to 1e-6.
const STEPS: usize = 40;
/// How a kiln got where its cooling begins: at so many K/h, and held so long, s. It decides how warm the walls are.
const HEATED: (f64, f64) = (150.0, 1800.0);

/// What a cooling curve said.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fitted {
    /// How many times more heat the walls let through than their size and lining say.
    pub leaks: f64,
    /// Time constant of cooling, hours.
    pub hours: f64,
    /// How far the readings are off, K, root of the mean square.
    pub off: f64,
}

/// The wall of a kiln, fitted to its readings if there are any, else as its openings have told. What lies inside counts with its heat capacity, J/K.
pub fn wall(kiln: &Kiln, inside: f64) -> (Wall, Option<Fitted>) {
    let plain = kiln.plain_wall();
    if kiln.cooling.is_empty() {
        return (plain.leaking(kiln.leaks.unwrap_or(1.0)), None);
    }
    // Golden section, on the logarithm.
    let golden = 0.5 * (5f64.sqrt() - 1.0);
    let off = |factor: f64| misses(plain.leaking(exp(factor)), inside, &kiln.cooling);
    let (mut low, mut high) = (-ln(MOST_OFF), ln(MOST_OFF));
    let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
    let (mut off_a, mut off_b) = (off(a), off(b));
    for _ in 0..STEPS {
        if off_a < off_b {
            (high, b, off_b) = (b, a, off_a);
            a = high - golden * (high - low);
            off_a = off(a);
        } else {
            (low, a, off_a) = (a, b, off_b);
            b = low + golden * (high - low);
            off_b = off(b);
        }
    }
    let leaks = exp(f64::midpoint(low, high));
    let wall = plain.leaking(leaks);
    let off = misses(wall, inside, &kiln.cooling);
    (wall, Some(Fitted { leaks, hours: wall.time_constant(inside) / 3600.0, off }))
}

/// How far a wall's cooling is off the readings, K, root of the mean square.
fn misses(wall: Wall, inside: f64, readings: &[Reading]) -> f64 {
    let first = readings[0];
    let mut kiln = heated(wall, inside, first.at.0);
    let (mut clock, mut sum) = (first.hours * 3600.0, 0.0);
    for reading in &readings[1..] {
        let left = reading.hours * 3600.0 - clock;
        let steps = (left / 60.0).ceil().max(1.0);
        for _ in 0..steps as usize {
            kiln.step(left / steps, 0.0, 0.0);
        }
        clock += left;
        let off = kiln.inside() - reading.at.0;
        sum += off * off;
    }
    (sum / (readings.len() - 1) as f64).sqrt()
}

/// A kiln heated to a temperature and held there, whatever power that takes.
fn heated(wall: Wall, inside: f64, to: f64) -> Heat {
    let (rate, hold) = HEATED;
    let mut kiln = Heat::cold(wall, inside, ROOM);
    let minutes = ((to - ROOM) / rate * 60.0).ceil().max(1.0);
    for minute in 1..=minutes as usize {
        kiln.step(60.0, ROOM + (to - ROOM) * minute as f64 / minutes, f64::INFINITY);
    }
    for _ in 0..10 {
        kiln.step(hold / 10.0, to, f64::INFINITY);
    }
    kiln
}
