//! How far a firing takes glass: the integral of its fluidity over time. Sinking, rounding and spreading depend on a firing by that
//! number alone.

use crate::base::units::{Celsius, Mm};
use crate::glass::melt::GRAVITY;
use crate::glass::viscosity::Viscosity;

/// Density of glass as it sinks, kg/m³.
pub const SINKING_DENSITY: f64 = 2450.0;

/// A stretch of a firing in which the temperature goes evenly from one value to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// At its beginning.
    pub from: Celsius,
    /// At its end.
    pub to: Celsius,
    /// How long it takes, s.
    pub seconds: f64,
}

impl Stretch {
    /// The first part of it, as a share of its time.
    pub fn part(self, share: f64) -> Self {
        let to = self.from.0 + (self.to.0 - self.from.0) * share;
        Self { from: self.from, to: Celsius(to), seconds: self.seconds * share }
    }
}

/// Nodes and weights of Gauss and Legendre's rule of five points (Abramowitz and Stegun 1964, table 25.4, from memory).
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// Longest piece that the rule is used on, K: the fluidity grows by less than twice in it.
const PIECE: f64 = 8.0;

/// The integral of dt/eta over a stretch, 1/Pa. Below the strain point nothing flows.
pub fn fluid_time(glass: &Viscosity, stretch: Stretch) -> f64 {
    let (mut low, mut high) = (stretch.from.0.min(stretch.to.0), stretch.from.0.max(stretch.to.0));
    let whole = high - low;
    if whole.is_nan() || whole.is_infinite() {
        return 0.0;
    }
    if whole < 1e-9 {
        return stretch.seconds * glass.fluidity(stretch.to);
    }
    // The rule must not look across the strain point, where the fluidity begins; what is hotter than any kiln is cut off too.
    low = low.max(glass.strain().0);
    high = high.min(2000.0);
    if high <= low {
        return 0.0;
    }
    let pieces = ((high - low) / PIECE).ceil();
    let half = (high - low) / pieces / 2.0;
    let mut sum = 0.0;
    for piece in 0..pieces as usize {
        let middle = low + (2.0 * piece as f64 + 1.0) * half;
        sum += GAUSS
            .iter()
            .map(|(at, weight)| weight * glass.fluidity(Celsius(middle + at * half)))
            .sum::<f64>();
    }
    sum * half * stretch.seconds / whole
}

/// The same over a whole firing.
pub fn whole_fluid_time(glass: &Viscosity, stretches: &[Stretch]) -> f64 {
    stretches.iter().map(|stretch| fluid_time(glass, *stretch)).sum()
}

/// When a firing has given so much fluid time, s from its beginning; none if it never does.
pub fn when(glass: &Viscosity, stretches: &[Stretch], wanted: f64) -> Option<f64> {
    let (mut begun, mut given) = (0.0, 0.0);
    for stretch in stretches {
        let gives = fluid_time(glass, *stretch);
        if given + gives >= wanted {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..60 {
                let middle = f64::midpoint(low, high);
                if given + fluid_time(glass, stretch.part(middle)) < wanted {
                    low = middle
                } else {
                    high = middle
                }
            }
            return Some(begun + stretch.seconds * high);
        }
        (begun, given) = (begun + stretch.seconds, given + gives);
    }
    None
}

/// The hold at a temperature, s, that adds up to so much fluid time behind what was given before; none if glass does not flow there.
pub fn hold_for(glass: &Viscosity, at: Celsius, given: f64, wanted: f64) -> Option<f64> {
    let fluidity = glass.fluidity(at);
    (fluidity > 0.0).then(|| (wanted - given).max(0.0) / fluidity)
}

/// The reduced time of a slump: rho g a times the fluid time, a being the radius of the middle of the disc, as the sheet reckons it
/// (`slump/sheet`). The shape of a sinking sheet depends on the firing by this alone.
pub fn reduced_time(fluid_time: f64, radius: Mm) -> f64 {
    SINKING_DENSITY * GRAVITY * radius.0 * 1e-3 * fluid_time
}

/// The fluid time, 1/Pa, of a reduced time.
pub fn fluid_time_of(reduced: f64, radius: Mm) -> f64 {
    reduced / (SINKING_DENSITY * GRAVITY * radius.0 * 1e-3)
}
