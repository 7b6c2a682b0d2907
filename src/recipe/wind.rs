//! Wind on a piece on its stem, and how deep that wants the stem set: an indication, not engineering.

use super::stem::Stem;
use crate::base::units::Mm;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// Gusts that are reckoned with, m/s: a strong breeze to a storm.
pub const GUSTS: [f64; 4] = [10.0, 15.0, 20.0, 25.0];
/// The gust that a stem is held to, m/s (chosen: what a garden sees in most years).
pub const USUAL_GUST: f64 = 15.0;

/// What a gust does.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wind {
    /// Its speed, m/s.
    pub speed: f64,
    /// Force on glass and pipe, N.
    pub force: f64,
    /// Moment about the ground, N m.
    pub moment: f64,
    /// Bending stress in the pipe at the ground, MPa.
    pub stress: f64,
    /// How deep it wants the stem in sand.
    pub depth: Mm,
}

/// Density of air at 15 °C, kg/m³ (International Standard Atmosphere).
const AIR: f64 = 1.225;
/// Drag of a cup whose mouth faces the wind, the worst way that a dome can stand (after Hoerner, as Aeronautical Engineer's Data
/// Book, p. 95, has it).
const CUP: f64 = 1.42;
/// Drag of a long cylinder (from memory).
const CYLINDER: f64 = 1.2;
/// What soil gives sideways for each meter of depth, Pa/m: sand, 150 psf/ft (IBC table 1806.2), doubled as for isolated poles that
/// may move half an inch at the ground (that clause from memory).
const SOIL: f64 = 2.0 * 150.0 * 47.880_259 / 0.3048;

impl Wind {
    /// What a gust of this speed (m/s) does to a dome no wider than `disc` on its stem.
    pub fn at(speed: f64, stem: &Stem, disc: Mm) -> Self {
        let pressure = 0.5 * AIR * speed * speed;
        let (across, high, wide) = (disc.0 / 1000.0, stem.length.0 / 1000.0, stem.pipe.outside() / 1000.0);
        let on_glass = pressure * CUP * PI / 4.0 * across * across;
        let on_pipe = pressure * CYLINDER * high * wide;
        let (force, moment) = (on_glass + on_pipe, on_glass * high + on_pipe * high / 2.0);
        Self {
            speed,
            force,
            moment,
            stress: moment * 1000.0 / stem.pipe.section_modulus(),
            depth: Mm(1000.0 * pole_depth(force, moment, wide)),
        }
    }
}

/// Depth of a pole in sand that nothing holds at the ground, m, by IBC 1807.3.2.1: d = A/2 (1 + sqrt(1 + 4.36 h/A)) with
/// A = 2.34 P/(S1 b), S1 being what soil gives at a third of d. Force in N at the height of moment over force, width in m.
fn pole_depth(force: f64, moment: f64, wide: f64) -> f64 {
    let height = moment / force;
    let wanted = |depth: f64| {
        let a = 2.34 * force / (SOIL * depth / 3.0 * wide);
        a / 2.0 * (1.0 + (1.0 + 4.36 * height / a).sqrt())
    };
    // What is wanted falls the deeper it stands, so both meet once: halved until it is known to 1 um.
    let (mut least, mut most) = (0.0, 10.0);
    while most - least > 1e-6 {
        let middle = f64::midpoint(least, most);
        if wanted(middle) > middle { least = middle } else { most = middle }
    }
    most
}
