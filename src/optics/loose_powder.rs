//! Loose powder: many small grains with air between them, pale because light turns back at every face.
//! Grain-layer model of Shkuratov, Starukhina, Hoffmann & Arnold 1999, Icarus 137, 235.

use super::surface::INDEX;
use crate::base::scalar::{asinh, exp};

/// Absorption and scatter of one layer of grains, as Kubelka-Munk k and s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrainLayer {
    /// Share of light sent back by the layer.
    pub back: f64,
    /// Share of light passed on by the layer, through grains or between them.
    pub forward: f64,
    /// Kubelka-Munk absorption.
    pub k: f64,
    /// Kubelka-Munk scatter.
    pub s: f64,
}

/// One layer of grains whose glass absorbs `alpha_d` (natural, per grain) and fills the share `filled` of the space.
pub fn grain_layer(alpha_d: f64, filled: f64) -> GrainLayer {
    let n = INDEX;
    let normal = (n - 1.0) / (n + 1.0);
    let outside = normal * normal + 0.05;
    let outside_back = (0.28 * n - 0.20) * outside;
    let outside_forward = outside - outside_back;
    let inside = 1.04 - 1.0 / (n * n);
    let (enter, leave) = (1.0 - outside, 1.0 - inside);
    let pass = exp(-alpha_d);
    let around = 0.5 * enter * leave * inside * pass * pass / (1.0 - inside * pass);
    let back = filled * (outside_back + around);
    let forward = filled * (outside_forward + enter * leave * pass + around) + 1.0 - filled;
    let a = (1.0 + back * back - forward * forward) / (2.0 * back);
    let b = (a * a - 1.0).max(0.0).sqrt();
    let s = if b < 1e-6 { back / forward } else { asinh(b * back / forward) / b };
    GrainLayer { back, forward, k: ((a - 1.0) * s).max(0.0), s }
}
