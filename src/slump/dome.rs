//! The dome: the flat disc laid on the mold's curve so that no part of it changes its area.

use super::inputs::SheetInputs;
use super::mold::{meridian, middle_radius};
use super::profile::USUAL_LIP;
use super::trajectory::Trajectory;
use crate::base::scalar::Bounds;
use crate::base::units::Mm;
use crate::recipe::plan::Plan;
use crate::recipe::{Form, Mold};

/// Rings of the table of a dome.
const RINGS: usize = 96;

/// One ring of the disc, before and after.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ring {
    /// Radius on the flat disc as cut, mm.
    pub s: f32,
    /// Radius on the dome, middle of the glass, mm.
    pub r: f32,
    /// Height of the middle of the glass above that of the rim, mm.
    pub z: f32,
    /// Thickness of the glass there, mm.
    pub thickness: f32,
}

/// A slumped piece, crown up.
///
/// The fused disc's edge is round: half a circle of the glass's thickness, whose outermost point is the disc's radius. So the
/// middle of the glass ends half a thickness before that, and the slump carries the half circle along as it is. Whatever the slope
/// there, the piece so reaches half a thickness further out and further down than the middle of its glass; and since no ring ends
/// further out than it lay, no dome is wider than its disc.
#[derive(Clone, Debug, PartialEq)]
pub struct Dome {
    rings: Vec<Ring>,
}

/// What a dome depends on.
#[derive(Clone, Debug, PartialEq)]
pub struct DomeInputs {
    /// The mold.
    pub mold: Mold,
    /// Radius of the fused disc, its round edge included, mm.
    pub radius: f32,
    /// Thickness of the fused disc, mm.
    pub thickness: f32,
}

impl DomeInputs {
    /// What the dome of a planned piece would depend on if its disc kept its size in the full fuse.
    pub fn of(plan: &Plan) -> Self {
        Self { mold: plan.mold.clone(), radius: plan.disc.radius(), thickness: plan.blank_thickness() }
    }

    /// The same as a sheet that sinks, with this friction and the usual lip.
    pub fn sheet(&self, friction: f64) -> SheetInputs {
        SheetInputs {
            mold: self.mold.clone(),
            radius: middle_radius(self.radius, self.thickness),
            thickness: self.thickness.into(),
            friction,
            lip: USUAL_LIP,
        }
    }
}

impl Dome {
    /// Slumps a disc: area-preserving, so its thickness stays. The disc of radius s covers the mold's curve up to
    /// where the swept area is pi s². The rings end where the round edge begins.
    pub fn new(inputs: &DomeInputs) -> Self {
        let curve = meridian(&inputs.mold, inputs.thickness.into());
        let radius = middle_radius(inputs.radius, inputs.thickness);
        let mut rings = Vec::with_capacity(RINGS);
        // Squared flat radius swept up to each point: pi s² = sum of pi (r + r') l.
        let mut swept = 0.0;
        let mut at = 0;
        for k in 0..RINGS {
            let s = radius * k as f64 / (RINGS - 1) as f64;
            while at + 2 < curve.len() && swept + frustum(curve[at], curve[at + 1]) < s * s {
                swept += frustum(curve[at], curve[at + 1]);
                at += 1;
            }
            let (a, b) = (curve[at], curve[at + 1]);
            let t = along((s * s - swept).max(0.0), a, b);
            let (r, z) = (a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1));
            rings.push(Ring { s: s as f32, r: r as f32, z: z as f32, thickness: inputs.thickness });
        }
        let rim = rings[RINGS - 1].z;
        for ring in &mut rings {
            ring.z -= rim;
        }
        Self { rings }
    }

    /// The piece that comes out when a slump ends at this reduced time: whatever sank into a bowl is turned over.
    pub fn sunk(way: &Trajectory, tau: f64) -> Self {
        let moment = way.at(tau);
        let up = if way.inputs().mold.form == Form::Hump { 1.0 } else { -1.0 };
        let radius = way.inputs().radius;
        let (shape, rim) = (&moment.shape, moment.rim().1);
        let last = shape.nodes.len() - 1;
        let rings = shape.nodes.iter().enumerate().map(|(i, (r, z))| Ring {
            s: (radius * i as f64 / last as f64) as f32,
            r: *r as f32,
            z: (up * (z - rim)) as f32,
            thickness: shape.thickness(i) as f32,
        });
        Self { rings: rings.collect() }
    }

    /// The same with its rings named by where they lay on the disc as cut, whose diameter is so many times that of the fused one: where
    /// its colors are looked up.
    #[must_use]
    pub fn as_cut(mut self, times: f32) -> Self {
        self.rings.iter_mut().for_each(|ring| ring.s *= times);
        self
    }

    /// The rings from the crown to the rim.
    pub fn rings(&self) -> &[Ring] {
        &self.rings
    }

    /// The outermost ring: where the round edge begins.
    pub fn rim(&self) -> Ring {
        self.rings[self.rings.len() - 1]
    }

    /// Width across, outside of the rounded rim.
    pub fn across(&self) -> Mm {
        let widest =
            self.rings.iter().fold(0.0f32, |most, ring| most.at_least(ring.r + 0.5 * ring.thickness));
        Mm(f64::from(2.0 * widest))
    }

    /// Height, outside, from the table it stands on.
    pub fn high(&self) -> Mm {
        let (top, low) = self.rings.iter().fold((f32::MIN, f32::MAX), |(top, low), ring| {
            let half = 0.5 * ring.thickness;
            (top.at_least(ring.z + half), low.at_most(ring.z - half))
        });
        Mm(f64::from(top - low))
    }
}

/// Area over pi of the band swept by a segment about the axis.
fn frustum(a: (f64, f64), b: (f64, f64)) -> f64 {
    let (dr, dz) = (b.0 - a.0, b.1 - a.1);
    (a.0 + b.0) * (dr * dr + dz * dz).sqrt()
}

/// How far along a segment (0 to 1) the swept area over pi reaches `area`: the root of a quadratic.
fn along(area: f64, a: (f64, f64), b: (f64, f64)) -> f64 {
    let (dr, dz) = (b.0 - a.0, b.1 - a.1);
    let length = (dr * dr + dz * dz).sqrt();
    // length (2 a.r t + dr t²) = area, in the form without cancellation.
    let root = (a.0 * a.0 + dr * area / length.max(1e-12)).max(0.0).sqrt();
    let t = if a.0 + root > 1e-12 { area / length.max(1e-12) / (a.0 + root) } else { 0.0 };
    t.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_bowl_gives_the_usual_dome() {
        let dome = Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 });
        // Closed form on the sphere of the middle, R = 87.667, to s = 77: cos theta = 1 - s²/(2 R²).
        assert!((dome.across().0 - 144.4).abs() < 0.05, "{}", dome.across());
        assert!((dome.high().0 - 39.8).abs() < 0.05, "{}", dome.high());
    }
}
