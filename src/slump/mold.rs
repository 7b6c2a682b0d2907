//! A mold as the curve that the middle of the glass follows in it, from the crown outward.

use crate::base::scalar::{Bounds, acos, atan2, sin_cos, tan};
use crate::recipe::{Form, Mold};

/// A point of a half section: distance from the axis and height, mm.
pub type Point = (f64, f64);

/// Radius at which the middle of a disc ends, mm: half a thickness before the outermost point of its round edge. (A plan's disc is at
/// least three times as wide as thick.)
pub fn middle_radius(radius: f32, thickness: f32) -> f64 {
    f64::from((radius - 0.5 * thickness).at_least(0.1 * radius))
}

/// Finest step of a meridian, mm.
const STEP: f64 = 0.4;

/// The meridian of the middle of a sheet `thickness` mm thick that lies in (or on) the mold, long enough for a disc of
/// any allowed size: beyond the mold's rim it lies flat. The crown is at height 0 and the curve sinks outward.
pub fn meridian(mold: &Mold, thickness: f64) -> Vec<Point> {
    let half = thickness / 2.0;
    let (opening, depth) = (mold.opening.0 / 2.0, mold.depth.0);
    let mut line = Line::new();
    match &mold.form {
        Form::Bowl | Form::Hump => {
            let radius = (opening * opening + depth * depth) / (2.0 * depth);
            let angle = acos((1.0 - depth / radius).clamp(-1.0, 1.0));
            let drape = mold.form == Form::Hump;
            line.arc(if drape { radius + half } else { radius - half }, angle);
        }
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => {
            let bottom = bottom.0 / 2.0;
            let slope = atan2(depth, opening - bottom);
            let wall = (depth * depth + (opening - bottom) * (opening - bottom)).sqrt();
            let per_radius = tan(slope / 2.0);
            let bend = bend(corner.0, thickness, bottom.min(wall) / per_radius);
            line.straight((bottom - bend * per_radius).max(0.0));
            line.arc((bend - half).max(0.0), slope);
            line.straight((wall - bend * per_radius).max(0.0));
        }
    }
    line.flatten();
    line.points
}

/// Radius that the glass bends around a corner with, on the side of the mold, mm. It follows the corner where it can; but no
/// face bends around less than nothing, so glass thicker than the corner's radius lets go of it and bridges it from the bottom
/// to the wall, its inner face in a crease. Where bottom or wall are too short for that, `room` is all there is.
pub fn bend(corner: f64, thickness: f64, room: f64) -> f64 {
    corner.max(thickness.min(room))
}

/// A curve drawn onward from its end in the direction it has.
struct Line {
    points: Vec<Point>,
    /// Slope below the horizontal, radians.
    slope: f64,
}

impl Line {
    fn new() -> Self {
        Self { points: vec![(0.0, 0.0)], slope: 0.0 }
    }

    fn end(&self) -> Point {
        self.points[self.points.len() - 1]
    }

    fn straight(&mut self, length: f64) {
        let (r, z) = self.end();
        let (sin, cos) = sin_cos(self.slope);
        let steps = (length / (2.0 * STEP)) as usize + 1;
        for i in 1..=steps {
            let l = length * i as f64 / steps as f64;
            self.points.push((r + l * cos, z - l * sin));
        }
    }

    /// Bends down by `angle` on an arc of this radius.
    fn arc(&mut self, radius: f64, angle: f64) {
        let (r, z) = self.end();
        let (sin0, cos0) = sin_cos(self.slope);
        let steps = (radius * angle / STEP) as usize + 2;
        for i in 1..=steps {
            let (sin, cos) = sin_cos(self.slope + angle * i as f64 / steps as f64);
            self.points.push((r + radius * (sin - sin0), z - radius * (cos0 - cos)));
        }
        self.slope += angle;
    }

    /// Turns level and goes on beyond any disc.
    fn flatten(&mut self) {
        self.slope = 0.0;
        self.straight(500.0);
    }
}
