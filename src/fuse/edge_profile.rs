//! The edge of a disc in section: a cut corner, and what its skin has made of it in the fuse.

use crate::base::scalar::sin_cos;
use crate::base::units::Mm;
use crate::glass::melt::SURFACE_TENSION;
use serde::{Deserialize, Serialize};
use std::f64::consts::FRAC_PI_2;

/// Points of each rounded corner.
const CORNER: usize = 12;
/// How far a section reaches inward from the edge, in thicknesses.
const REACH: f64 = 4.0;

/// A section through the edge. Points are (distance from the axis, height above the shelf), mm, from inside over the top and around the
/// edge back to inside on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EdgeProfile {
    /// As cut.
    pub cut: Vec<(f64, f64)>,
    /// As fused.
    pub fused: Vec<(f64, f64)>,
    /// Radius of the fused edge.
    pub radius: Mm,
}

/// How far skin has rounded a corner after so much fluid time (the integral of dt/eta, 1/Pa): gamma t/eta, mm. An order of magnitude
/// by the only speed that skin and viscosity give; no measurement was found.
pub fn rounding(fluid_time: f64) -> f64 {
    SURFACE_TENSION * fluid_time * 1e3
}

/// The edge of a disc, cut so wide and thick, fused so wide and thick. A round edge is at most half a circle, which is what the slump
/// carries on.
pub fn edge(cut: (Mm, Mm), fused: (Mm, Mm), fluid_time: f64) -> EdgeProfile {
    let inside = ((cut.0.0.min(fused.0.0)) / 2.0 - REACH * cut.1.0.max(fused.1.0)).max(0.0);
    let radius = rounding(fluid_time).min(fused.1.0 / 2.0).min(fused.0.0 / 2.0);
    EdgeProfile { cut: section(inside, cut, 0.0), fused: section(inside, fused, radius), radius: Mm(radius) }
}

fn section(inside: f64, (across, thick): (Mm, Mm), radius: f64) -> Vec<(f64, f64)> {
    let mut points = vec![(inside, thick.0)];
    let out = across.0 / 2.0 - radius;
    for (middle, from) in [(thick.0 - radius, FRAC_PI_2), (radius, 0.0)] {
        let steps = if radius > 0.0 { CORNER } else { 0 };
        for step in 0..=steps {
            let (sin, cos) = sin_cos(from - FRAC_PI_2 * step as f64 / steps.max(1) as f64);
            points.push((out + radius * cos, middle + radius * sin));
        }
    }
    points.push((inside, 0.0));
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cut_edge_is_square_and_a_hot_one_half_a_circle() {
        let (cut, fused) = ((Mm(160.0), Mm(6.0)), (Mm(158.0), Mm(6.15)));
        let cold = edge(cut, fused, 0.0);
        let inside = cold.cut[0].0;
        assert!((inside - 54.4).abs() < 1e-9, "{inside}");
        assert_eq!(cold.cut, [(inside, 6.0), (80.0, 6.0), (80.0, 0.0), (inside, 0.0)]);
        assert_eq!(cold.fused[1], (79.0, 6.15));
        let hot = edge(cut, fused, 1.0);
        assert_eq!(hot.radius, Mm(3.075));
        for (x, z) in &hot.fused[1..hot.fused.len() - 1] {
            let (dx, dz) = (x - (79.0 - 3.075), z - 3.075);
            assert!(((dx * dx + dz * dz).sqrt() - 3.075).abs() < 1e-9, "{x}, {z}");
        }
        let widest = hot.fused.iter().fold(0.0, |most: f64, point| most.max(point.0));
        assert!((widest - 79.0).abs() < 1e-9, "{widest}");
    }
}
