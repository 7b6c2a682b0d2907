//! The joint in section at the crown, to scale: glass, silicone, stopper and the pipe's end.

use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::{Mm, fixed};
use dappledome::recipe::STOPPER_LENGTH;
use dappledome::recipe::{Face, Joint, Stem};
use dappledome::shop::stem::{HOLE, StemNeeds};
use leptos::prelude::*;

/// Room around the drawing, and what is seen of the pipe below the stopper, mm.
const AROUND: f64 = 8.0;
/// Straight pieces that a face is drawn with.
const PIECES: i32 = 24;

/// The drawing.
#[component]
pub fn JointDrawing() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let drawn = move || {
        let stem = piece.recipe.read().stem?;
        let ticket = results.ticket.read();
        let ticket = ticket.as_ref()?;
        let needs = ticket.stem?;
        let section = Section::new(&stem, &needs, ticket.fused_thickness)?;
        Some(view! {
            <svg class="joint-drawing" role="img" aria-label=preferences.text(&words::joint_drawn(&needs)) viewBox=section.view_box>
                <path class="joint-pipe" d=section.pipe />
                <path class="joint-silicone" d=section.silicone />
                <path class="joint-stopper" d=section.stopper />
                <path class="joint-hole" d=section.hole />
                <path class="joint-glass" d=section.glass />
            </svg>
        })
    };
    view! { <div class="joint-place">{drawn}</div> }
}

/// Paths in mm, the middle of the stopper's wide face in the origin, y down.
struct Section {
    view_box: String,
    glass: String,
    silicone: String,
    stopper: String,
    hole: String,
    pipe: String,
}

/// The face of the glass that the stopper is set on: a sphere, and on which side of it the glass lies.
struct Sphere {
    radius: f64,
    crown: f64,
    hollow: bool,
}

impl Sphere {
    /// The face that has fallen by the gap at the edge of the stopper's face.
    fn new(on: Face, face: f64, gap: f64) -> Self {
        let gap = gap.max(0.01);
        let hollow = on == Face::Inside;
        // A hollow face touches the stopper with its edge, a round one with its middle.
        Self {
            radius: (face * face + gap * gap) / (2.0 * gap),
            crown: if hollow { -gap } else { 0.0 },
            hollow,
        }
    }

    /// The point at so many mm from the axis along the face, and so many mm into the glass.
    fn at(&self, out: f64, into: f64) -> (f64, f64) {
        let fallen = self.radius - (self.radius * self.radius - out * out).max(0.0).sqrt();
        let scale = if self.hollow { 1.0 + into / self.radius } else { 1.0 - into / self.radius };
        let down = self.radius - (self.radius - fallen) * scale;
        (out * scale, self.crown + if self.hollow { down } else { -down })
    }

    fn points(&self, out: f64, into: f64) -> Vec<(f64, f64)> {
        (-PIECES..=PIECES).map(|at| self.at(out * f64::from(at) / f64::from(PIECES), into)).collect()
    }
}

impl Section {
    fn new(stem: &Stem, needs: &StemNeeds, thick: Mm) -> Option<Self> {
        let stopper = stem.stopper()?;
        let (face, narrow) = (stopper.top / 2.0, stopper.bottom / 2.0);
        let sphere = Sphere::new(stem.on, face, needs.gap.0);
        let (bore, outside) = (stem.pipe.bore()[1] / 2.0, stem.pipe.outside() / 2.0);
        let wide = (face.max(outside) + 2.0 * AROUND).min(sphere.radius);
        let (near, far) = (sphere.points(wide, 0.0), sphere.points(wide, thick.0));
        let top = far.iter().chain(&near).fold(0.0_f64, |top, point| top.min(point.1)) - 1.0;
        let (mouth, end) = (STOPPER_LENGTH - needs.inserted[1].0, STOPPER_LENGTH + AROUND);
        let wall = |side: f64| {
            outline(&[
                (side * bore, end),
                (side * bore, mouth),
                (side * outside, mouth),
                (side * outside, end),
            ])
        };
        let hole = HOLE / 2.0;
        let line = |x: f64| format!("M{} 0V{}", fixed(x, 2), fixed(STOPPER_LENGTH, 2));
        let across = near.iter().chain(&far).fold(0.0_f64, |most, point| most.max(point.0)) + 1.0;
        Some(Self {
            view_box: [-across, top, 2.0 * across, end - top].map(|number| fixed(number, 2)).join(" "),
            glass: outline(&near.iter().copied().chain(far.iter().rev().copied()).collect::<Vec<_>>()) + "Z",
            silicone: silicone(stem.joint, &sphere, face),
            stopper: outline(&[
                (-face, 0.0),
                (face, 0.0),
                (narrow, STOPPER_LENGTH),
                (-narrow, STOPPER_LENGTH),
            ]) + "Z",
            hole: if needs.holed { line(-hole) + &line(hole) } else { String::new() },
            pipe: wall(-1.0) + &wall(1.0),
        })
    }
}

/// Between the faces and in the fillet, or as dabs.
fn silicone(joint: Joint, sphere: &Sphere, face: f64) -> String {
    match joint {
        Joint::Holed { fillet } => {
            let leg = fillet.0;
            let mut points = sphere.points(face + leg, 0.0);
            points.extend([(face, leg), (face, 0.0), (-face, 0.0), (-face, leg)]);
            outline(&points) + "Z"
        }
        Joint::Dabs { across, .. } => {
            let half = across.0 / 2.0;
            let dab = |middle: f64| {
                outline(&[
                    (middle - half, 0.0),
                    sphere.at(middle - half, 0.0),
                    sphere.at(middle + half, 0.0),
                    (middle + half, 0.0),
                ]) + "Z"
            };
            dab(half - face) + &dab(face - half)
        }
    }
}

/// Points as the data of a path.
fn outline(points: &[(f64, f64)]) -> String {
    let mut data = String::new();
    for (at, (x, y)) in points.iter().enumerate() {
        data.push_str(if at == 0 { "M" } else { "L" });
        data.push_str(&fixed(*x, 2));
        data.push(' ');
        data.push_str(&fixed(*y, 2));
    }
    data
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A face of 24 mm inside a sphere of 90 mm: its edge touches, the crown lies 0.804 mm above; outside it, the middle touches.
    #[test]
    fn a_face_touches_where_it_must() {
        let gap = 90.0 - (90.0_f64 * 90.0 - 144.0).sqrt();
        let inside = Sphere::new(Face::Inside, 12.0, gap);
        assert!((inside.radius - 90.0).abs() < 1e-9 && inside.at(12.0, 0.0).1.abs() < 1e-9);
        assert!((inside.at(0.0, 6.0).1 + gap + 6.0).abs() < 1e-9, "the glass lies above");
        let outside = Sphere::new(Face::Outside, 12.0, gap);
        assert!(outside.at(0.0, 0.0).1.abs() < 1e-9 && (outside.at(12.0, 0.0).1 + gap).abs() < 1e-9);
        assert!((outside.at(0.0, 6.0).1 + 6.0).abs() < 1e-9, "the glass lies above here too");
    }
}
