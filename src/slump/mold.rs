//! A mold as the curve that the middle of the glass follows in it, from the crown outward.

use crate::base::scalar::{acos, atan2, sin_cos, tan};
use crate::recipe::{Form, Mold};

/// A point of a meridian: distance from the axis and height, mm; the crown is at height 0 and the curve sinks outward.
pub type Point = (f64, f64);

/// Finest step of a meridian, mm.
const STEP: f64 = 0.4;

/// The meridian of the middle of a sheet `thickness` mm thick that lies in (or on) the mold, long enough for a disc of
/// any allowed size: beyond the mold's rim it lies flat.
pub fn meridian(mold: &Mold, thickness: f64) -> Vec<Point> {
    let half = thickness / 2.0;
    let (opening, depth) = (mold.opening.0 / 2.0, mold.depth.0);
    let mut line = Line::new();
    match &mold.form {
        Form::Bowl | Form::Hump => {
            let radius = (opening * opening + depth * depth) / (2.0 * depth);
            let angle = acos((1.0 - depth / radius).clamp(-1.0, 1.0));
            let drape = mold.form == Form::Hump;
            let middle = if drape { radius + half } else { (radius - half).max(0.2 * radius) };
            line.arc(middle, angle);
        }
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => {
            let (bottom, corner) = (bottom.0 / 2.0, corner.0);
            let slope = atan2(depth, opening - bottom);
            let tangent = corner * tan(slope / 2.0);
            let wall = (depth * depth + (opening - bottom) * (opening - bottom)).sqrt() - tangent;
            line.straight((bottom - tangent).max(0.0));
            line.arc((corner - half).max(0.5), slope);
            line.straight(wall.max(0.0));
        }
    }
    line.flatten();
    line.points
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
