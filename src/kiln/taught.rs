//! What an opening says of the walls: how long a firing lasted, from switching on until the kiln could be opened.

use super::bench::Bench;
use super::data::Kiln;
use super::program::Program;
use super::wall::MOST_OFF;
use crate::base::scalar::{exp, ln};
use crate::recipe::plan::Plan;

/// Steps of the search: the factor is then good to a thousandth.
const STEPS: usize = 12;
/// A firing lasts as long as was told if it is no further off than this, hours: the clock at the kiln is read to five minutes.
const SAME: f64 = 0.1;

/// How many times more heat the walls let through than their size and lining say, if this program of a plan lasted so many hours. Found by
/// running it again and again. None where no wall does that which is anything like the kiln's.
pub fn leaks(plan: &Plan, kiln: &Kiln, program: &Program, hours: f64) -> Option<f64> {
    let lasts = |leaks: f64| {
        let bench = Bench { kiln, wall: kiln.plain_wall().leaking(leaks) };
        // A kiln that does not get through it leaks too much to reach its top, or too little to cool.
        let stuck = if leaks > 1.0 { 0.0 } else { f64::INFINITY };
        bench.run(plan, program.firing, &program.segments).map_or(stuck, |course| course.end() / 3600.0)
    };
    let (mut low, mut high) = (-ln(MOST_OFF), ln(MOST_OFF));
    for _ in 0..STEPS {
        let middle = f64::midpoint(low, high);
        if lasts(exp(middle)) > hours {
            low = middle;
        } else {
            high = middle;
        }
    }
    let found = exp(f64::midpoint(low, high));
    ((lasts(found) - hours).abs() < SAME).then_some(found)
}
