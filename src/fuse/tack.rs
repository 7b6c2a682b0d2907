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

/// Fluid time of the usual tack fuse, 735 °C for 8 minutes in a small brick kiln, 1/Pa: where no plan is at hand.
pub const USUAL: f64 = 0.0018;

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
    let neck = neck(radius, fluid_time);
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

/// How a tacked piece stands on the glass: as half an ellipsoid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stands {
    /// Half its width, mm.
    pub radius: f32,
    /// Its height, mm.
    pub height: f32,
}

impl Stands {
    /// Mean glass over its foot, mm: two thirds of its height.
    pub fn mean_glass(self) -> f32 {
        self.height * 2.0 / 3.0
    }
}

/// A grain spreads no wider than so many of its radii. (Chosen: it is then a third as high as a radius, hardly more than the glass beside it.)
const WIDEST: f64 = 2.8;

/// How high a grain is before it is fired, in its widths. Broken bodies measure 2 : sqrt(2) : 1 in the mean (Fujiwara, Kamimoto and Tsukamoto
/// 1978, Nature 272, 602: struck rock; from memory). They lie on their widest side, and the middle length is what the sieve lets through.
const LIES: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// How a piece so large stands after so much fluid time (1/Pa): as the cap of a ball as wide as its sieve on the neck that Frenkel's law
/// gives it, and all of that as much flatter as broken grains are. Where the law no longer holds (see [`Look::Flat`]) the neck goes on
/// growing by it, which shows the way and no more.
pub fn stands(size: Mm, fluid_time: f64) -> Stands {
    let radius = size.0 / 2.0;
    let neck = (neck(radius, fluid_time) / radius.max(1e-9)).min(WIDEST);
    // pi h (3 x² + h²)/6 = 4 pi/3 for a ball of radius 1: rising in h and bent upward, so Newton's steps come down to it from above.
    let mut high = 2.0;
    for _ in 0..12 {
        let over = high * (3.0 * neck * neck + high * high) - 8.0;
        high -= over / (3.0 * (neck * neck + high * high));
    }
    let wide = if high > neck { (neck * neck + high * high) / (2.0 * high) } else { neck };
    Stands { radius: (wide * radius) as f32, height: (LIES * high * radius) as f32 }
}

/// Radius of the neck by Frenkel's law, mm.
fn neck(radius: f64, fluid_time: f64) -> f64 {
    (1.5 * SURFACE_TENSION * radius * 1e-3 * fluid_time).max(0.0).sqrt() * 1e3
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    /// Cold it is a ball made 1 : sqrt(2) flatter; on any neck the cap has that one's volume, and the longer it is hot the lower and wider it lies.
    #[test]
    fn a_grain_keeps_its_glass_as_it_sinks() {
        let cold = stands(Mm(4.0), 0.0);
        assert!((cold.radius - 2.0).abs() < 1e-5 && (cold.height - 2.828_427).abs() < 1e-5, "{cold:?}");
        let mut last = cold;
        for fluid_time in [0.0005, 0.002, 0.008, 0.03] {
            let now = stands(Mm(4.0), fluid_time);
            // Frenkel, by hand: x² = 1.5 * 0.30 N/m * 2 mm * t/eta.
            let x = (1.5 * 0.30 * 2e-3 * fluid_time).sqrt() * 1e3;
            let h = f64::from(now.height) * 2.0f64.sqrt();
            let volume = PI * h * (3.0 * x * x + h * h) / 6.0;
            assert!((volume - 4.0 / 3.0 * PI * 8.0).abs() < 1e-3 * volume, "{fluid_time}: {volume}");
            assert!(now.height < last.height, "{now:?} behind {last:?}");
            last = now;
        }
        assert!(last.radius > 1.5 * cold.radius && last.height < cold.height / 2.0, "{last:?}");
    }
}
