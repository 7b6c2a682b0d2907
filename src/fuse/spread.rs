//! Whether a melted stack keeps its size: it draws in where it is thinner than melted glass stands by itself, and spreads where it
//! is thicker, as far as its time allows.
//!
//! How much the shelf holds the glass is not known, so there are two bounds: glass that slides without friction and glass whose foot
//! does not move. The truth lies between.

use crate::base::scalar::{exp, exp_m1, sin_cos};
use crate::base::units::Mm;
use crate::glass::melt::{CONTACT_ANGLE, GRAVITY, MELT_DENSITY, capillary_length, resting_thickness};
use serde::{Deserialize, Serialize};

/// Change of the diameter that counts as none, as a share. A judgment: what a cutter's wobble and a grinder take anyway.
const HOLDS: f64 = 0.03;

/// A stack on the shelf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stack {
    /// Diameter as cut.
    pub across: Mm,
    /// Thickness.
    pub thick: Mm,
    /// Width of the dam around it, if there is one.
    pub dam: Option<Mm>,
}

/// What a stack does in a firing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tendency {
    /// It becomes narrower and thicker.
    DrawsIn,
    /// It keeps its size.
    Holds,
    /// It becomes wider and thinner.
    Spreads,
}

/// The size of a disc behind its full fuse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spread {
    /// What it does.
    pub tendency: Tendency,
    /// Diameter to reckon with: the middle of the two bounds, since nothing says where between them the truth lies.
    pub across: Mm,
    /// Diameter where it slides without friction.
    pub slips: Mm,
    /// Diameter where its foot is held.
    pub sticks: Mm,
    /// Thickness at the diameter to reckon with.
    pub thick: Mm,
}

/// The size of a disc after so much fluid time (the integral of dt/eta, 1/Pa). Never wider than its dam.
pub fn spread(stack: Stack, fluid_time: f64) -> Spread {
    let within = |across: f64| stack.dam.map_or(across, |dam| across.min(dam.0.max(stack.across.0)));
    let (slips, sticks) = (within(slipping(stack, fluid_time)), within(sticking(stack, fluid_time)));
    let across = f64::midpoint(slips, sticks);
    let change = across / stack.across.0 - 1.0;
    let tendency = match change {
        _ if change < -HOLDS => Tendency::DrawsIn,
        _ if change > HOLDS => Tendency::Spreads,
        _ => Tendency::Holds,
    };
    let thick = stack.thick.0 * (stack.across.0 / across) * (stack.across.0 / across);
    Spread { tendency, across: Mm(across), slips: Mm(slips), sticks: Mm(sticks), thick: Mm(thick) }
}

/// Diameter of a slab that slides without friction, mm. Its rate d(ln R)/dt = (rho g h/2 - gamma (1 - cos theta)/h)/(6 eta) with
/// R² h kept is dh/dt = -(rho g/(6 eta)) (h² - H²), H the thickness at rest, which has this closed solution.
fn slipping(stack: Stack, fluid_time: f64) -> f64 {
    let (h0, rest) = (stack.thick.0, resting_thickness(CONTACT_ANGLE));
    let grown = tanh(MELT_DENSITY * GRAVITY / 6.0 * rest * 1e-3 * fluid_time);
    let h = rest * (h0 + rest * grown) / (rest + h0 * grown);
    stack.across.0 * (h0 / h).sqrt()
}

/// Diameter of a slab whose foot is held, mm: it nears its end in the time 3 eta R²/(rho g h³), hours where a full fuse has minutes.
fn sticking(stack: Stack, fluid_time: f64) -> f64 {
    let end = stack.across.0 * (stack.thick.0 / resting_thickness(CONTACT_ANGLE)).sqrt();
    let (radius, thick) = (stack.across.0 / 2.0, stack.thick.0);
    let rate = MELT_DENSITY * GRAVITY * thick * thick * thick * 1e-3 / (3.0 * radius * radius);
    end + (stack.across.0 - end) * exp(-rate * fluid_time)
}

fn tanh(x: f64) -> f64 {
    let m = exp_m1(-2.0 * x);
    -m / (2.0 + m)
}

/// A stack at rest, however long that takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct AtRest {
    /// Diameter of its foot.
    pub foot: Mm,
    /// Height in its middle.
    pub high: Mm,
}

/// A stack at rest: a drop wide against the capillary length l, whose edge is that of a straight puddle to first order in l/R. The
/// balance of forces across its edge gives h² = H² + (8/3) l³ (1 - cos³(theta/2))/R for its height, and that on its foot the volume
/// pi R² h - 2 pi R l² sin theta (Laplace's equation, integrated once). None where the drop is no wider than its edges.
pub fn at_rest(stack: Stack) -> Option<AtRest> {
    let length = capillary_length();
    let rest = resting_thickness(CONTACT_ANGLE);
    let (sin, _) = sin_cos(CONTACT_ANGLE.to_radians());
    let (_, cos_half) = sin_cos(CONTACT_ANGLE.to_radians() / 2.0);
    let bend = 8.0 / 3.0 * length * length * length * (1.0 - cos_half * cos_half * cos_half);
    let height = |radius: f64| (rest * rest + bend / radius).sqrt();
    let slab = stack.across.0 / 2.0 * stack.across.0 / 2.0 * stack.thick.0;
    let mut radius = (slab / rest).sqrt();
    if radius.is_nan() || radius < 4.0 * length {
        return None;
    }
    // R² h - 2 R l² sin theta = V/pi, h nearly constant: the root of a quadratic, again with each h.
    for _ in 0..30 {
        let (h, skin) = (height(radius), length * length * sin);
        radius = (skin + (skin * skin + h * slab).sqrt()) / h;
    }
    Some(AtRest { foot: Mm(2.0 * radius), high: Mm(height(radius)) })
}
