//! The tack fuse: how round a piece of frit gets and how wide it grows together with the glass below it.

use super::edge_profile::rounding;
use crate::base::units::Mm;
use crate::glass::melt::SURFACE_TENSION;
use serde::{Deserialize, Serialize};

/// Edges less round than this are sharp, mm. A judgment, no source: the radius that a quick stroke with a fine stone leaves.
const SHARP: f64 = 0.1;
/// Necks wider than this share of the grain's radius leave no grain standing. A judgment: Frenkel's law holds for the first growth
/// only and gives no answer there.
const FLAT: f64 = 0.8;

/// How a tacked piece comes out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tacked {
    /// Its size by the sieve.
    pub size: Mm,
    /// Radius of its edges: as round as a ball at most.
    pub edge: Mm,
    /// From 0, as broken, to 1, a ball.
    pub roundness: f64,
    /// Width of the neck to the glass below; none where it has melted flat and the law does not hold.
    pub neck: Option<Mm>,
    /// What it is called.
    pub look: Look,
}

/// How a tacked piece looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// Its edges cut.
    Sharp,
    /// It stands, its edges round.
    Rounded,
    /// It has sunk into the glass below.
    Flat,
}

/// A piece so large after so much fluid time (the integral of dt/eta, 1/Pa). The neck's radius x grows by Frenkel's law for a ball of
/// radius R, x² = (3/2) gamma R t/eta (Frenkel 1945, J. Phys. (Moscow) 9, 385; from memory), edges by gamma t/eta.
pub fn tack(size: Mm, fluid_time: f64) -> Tacked {
    let radius = size.0 / 2.0;
    let neck = (1.5 * SURFACE_TENSION * radius * 1e-3 * fluid_time).max(0.0).sqrt() * 1e3;
    let edge = rounding(fluid_time).min(radius);
    let flat = neck > FLAT * radius;
    let look = match () {
        () if flat => Look::Flat,
        () if edge < SHARP => Look::Sharp,
        () => Look::Rounded,
    };
    let roundness = if radius > 0.0 { edge / radius } else { 1.0 };
    Tacked { size, edge: Mm(edge), roundness, neck: (!flat).then_some(Mm(2.0 * neck)), look }
}
