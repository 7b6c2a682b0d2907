//! What a stem and its joint take: pipe, silicone, how the stopper sits, how long the joint cures, and what the wind does.

use crate::base::units::Mm;
use crate::recipe::plan::Plan;
use crate::recipe::wind::{GUSTS, Wind};
use crate::recipe::{Face, Joint, Pipe, Stem};
use crate::slump::dome::Dome;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// What one piece takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct StemNeeds {
    /// The pipe.
    pub pipe: Pipe,
    /// Length to cut, what stands in the ground included.
    pub cut: Mm,
    /// Number of the stopper.
    pub stopper: u32,
    /// Whether it has a hole.
    pub holed: bool,
    /// How deep the stopper goes into the narrowest, the mean and the widest bore of that size.
    pub inserted: [Mm; 3],
    /// How far the dome's face curves away from the stopper's: at its middle inside a dome, at its edge outside.
    pub gap: Mm,
    /// Silicone for one joint, mL, with what sticks to the tool.
    pub silicone: f64,
    /// Between which numbers of days the joint is cured through.
    pub cured: [f64; 2],
    /// What gusts do, the weakest first.
    pub winds: [Wind; 4],
}

/// What sticks to tool and nozzle: common practice, no source.
const SPARE: f64 = 0.15;
/// A tube of silicone, mL: common practice, no source.
pub const TUBE: f64 = 300.0;
/// Width of the hole in a holed stopper, mm: common practice, no source.
pub const HOLE: f64 = 5.0;
/// How far silicone cures from the air in its first day, mm: from memory. It goes on with the root of time (own assumption).
const FIRST_DAY: [f64; 2] = [3.0, 2.0];

impl StemNeeds {
    /// What the stem of a planned piece takes; none without a stem.
    pub fn of(plan: &Plan, dome: &Dome) -> Option<Self> {
        let stem = plan.stem?;
        let stopper = stem.stopper()?;
        let face = stopper.top / 2.0;
        let gap = sag(dome, face);
        let disc = Mm(2.0 * f64::from(plan.disc.radius()));
        Some(Self {
            pipe: stem.pipe,
            cut: stem.cut(),
            stopper: stem.stopper,
            holed: matches!(stem.joint, Joint::Holed { .. }),
            inserted: stopper.inserted(stem.pipe).map(Mm),
            gap: Mm(gap),
            silicone: silicone(&stem, face, gap) / 1000.0 * (1.0 + SPARE),
            cured: FIRST_DAY.map(|first| cured(&stem, face, first)),
            winds: GUSTS.map(|speed| Wind::at(speed, &stem, disc)),
        })
    }
}

/// How far the face of a dome has fallen from its crown at so many mm from its axis, mm. The middle of the glass stands for both faces: half a
/// thickness further in or out the sag of 12 mm changes by a thirtieth.
fn sag(dome: &Dome, out: f64) -> f64 {
    let rings = dome.rings();
    let height = |k: usize| f64::from(rings[k].z);
    let last = rings.iter().position(|ring| f64::from(ring.r) >= out).unwrap_or(rings.len() - 1).max(1);
    let (inner, outer) = (f64::from(rings[last - 1].r), f64::from(rings[last].r));
    let along = ((out - inner) / (outer - inner).max(1e-9)).clamp(0.0, 1.0);
    let there = height(last - 1) + along * (height(last) - height(last - 1));
    (height(0) - there).abs()
}

/// Silicone of a joint, mm³.
fn silicone(stem: &Stem, face: f64, gap: f64) -> f64 {
    match stem.joint {
        Joint::Holed { fillet } => between(stem.on, face, gap) + around(face, fillet.0),
        // Each is reckoned as half a ball: own model.
        Joint::Dabs { count, across } => f64::from(count) * PI / 12.0 * across.0 * across.0 * across.0,
    }
}

/// Between a flat face of this radius and a dome that curves away by `gap`, mm³: a spherical cap, pi s (3 a² + s²)/6, or what is left of its
/// cylinder.
fn between(on: Face, face: f64, gap: f64) -> f64 {
    let cap = PI * gap * (3.0 * face * face + gap * gap) / 6.0;
    match on {
        Face::Inside => cap,
        Face::Outside => PI * face * face * gap - cap,
    }
}

/// A flat fillet around a round face, mm³: a triangle turned about the axis (Pappus), 2 pi (a + r/3) r²/2.
fn around(face: f64, leg: f64) -> f64 {
    PI * (face + leg / 3.0) * leg * leg
}

/// Days until silicone has cured through that reaches so deep on its first day, mm: depth grows with the root of time.
fn cured(stem: &Stem, face: f64, first: f64) -> f64 {
    let deep = match stem.joint {
        // From the fillet's skin and from the hole, each to the middle between them.
        Joint::Holed { fillet } => (fillet.0 + face - HOLE / 2.0) / 2.0,
        Joint::Dabs { across, .. } => across.0 / 2.0,
    };
    (deep / first) * (deep / first)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::{Mold, Recipe};
    use crate::slump::dome::DomeInputs;

    fn needs(stem: Stem) -> StemNeeds {
        let plan = Plan::new(&Recipe { stem: Some(stem), ..Recipe::bare() }).unwrap().plan;
        let dome = Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 });
        StemNeeds::of(&plan, &dome).unwrap()
    }

    fn near(got: f64, want: f64, within: f64) {
        assert!((got - want).abs() <= within, "{got}, not {want}");
    }

    /// By hand: a face of 27 mm inside a sphere of 90 mm, fillet 5 mm: gap 1.018 mm, 0.292 mL between and 1.191 mL around. Outside the
    /// sphere pi a² s = 0.583 mL less that.
    #[test]
    fn silicone_fills_gap_and_fillet() {
        let gap = 90.0 - (90.0_f64 * 90.0 - 13.5 * 13.5).sqrt();
        near(gap, 1.018, 5e-4);
        near(between(Face::Inside, 13.5, gap), 292.0, 0.5);
        near(between(Face::Outside, 13.5, gap), 583.1 - 292.0, 0.6);
        near(around(13.5, 5.0), 1191.0, 0.5);
    }

    /// The middle of the usual dome lies on a sphere of 87.667 mm; No. 3 has a face of 24 mm: its gap is 0.825 mm. With a fillet of
    /// 5 mm that is pi 0.825 (432 + 0.68)/6 + pi (12 + 5/3) 25 = 187 + 1073 mm³, and 15 % more.
    #[test]
    fn a_joint_is_that_of_its_dome() {
        let usual = needs(Stem::default());
        near(usual.gap.0, 0.825, 0.002);
        near(usual.silicone, 1.260 * 1.15, 0.002);
        let dabs = needs(Stem { joint: Joint::dabs(), ..Stem::default() });
        // Six half balls of 6 mm: 6 x pi/12 x 216 = 339 mm³.
        near(dabs.silicone, 0.3393 * 1.15, 1e-4);
        assert_eq!((usual.holed, dabs.holed, usual.cut), (true, false, Mm(1300.0)));
    }

    /// A fillet of 5 mm alone takes (5/3)² to (5/2)² = 3 to 6 days, a blind face of 13.5 mm 20 to 46; from both sides of the 9.5 mm
    /// between hole and edge and the fillet of 5 mm, half of 14.5 mm.
    #[test]
    fn a_joint_cures_from_where_the_air_is() {
        let [first, last] = needs(Stem::default()).cured;
        near(first, 7.25 * 7.25 / 9.0, 1e-9);
        near(last, 7.25 * 7.25 / 4.0, 1e-9);
        let dabs = needs(Stem { joint: Joint::dabs(), ..Stem::default() }).cured;
        assert_eq!(dabs, [1.0, 2.25]);
    }
}
