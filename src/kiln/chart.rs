//! What is drawn of a program: temperature and the stress in the core over time, and how the fluid time grows.

use super::anneal;
use super::course::Course;
use super::flow::{Stretch, fluid_time};
use super::piece::Piece;
use super::segment::Segment;
use super::thermal::Exchange;
use crate::base::firing::SegmentName;
use crate::base::units::Celsius;
use serde::{Deserialize, Serialize};

/// A point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Hours from switching on.
    pub hours: f64,
    /// Temperature.
    pub at: Celsius,
    /// Stress in the core of the thickest place, MPa, tension above zero: while it lasts, and what stays. None where glass is soft.
    pub core: f64,
}

/// Minutes between two points of the chart.
const CHART: f64 = 5.0;
/// The fluid time from where it begins to grow.
pub fn growing(piece: &Piece, hot: &[Stretch]) -> Vec<(f64, f64)> {
    let (mut seconds, mut sum, mut points) = (0.0, 0.0, Vec::new());
    for stretch in hot {
        if stretch.to > piece.flow.strain() || sum > 0.0 {
            if points.is_empty() {
                points.push((seconds / 3600.0, 0.0));
            }
            sum += fluid_time(&piece.flow, *stretch);
            points.push(((seconds + stretch.seconds) / 3600.0, sum));
        }
        seconds += stretch.seconds;
    }
    points
}

/// Temperature over time, and the stress in the core: what the present rate does, and in set glass what the anneal has left.
pub fn chart(piece: &Piece, segments: &[Segment], course: &Course) -> Vec<Point> {
    let per_rate = piece.plate.core_stress(1.0, Exchange::OneFaceHeld);
    let soft = piece.anneal.annealing().0;
    let cool = segments.iter().position(|segment| segment.name == SegmentName::Cool);
    let set_by = cool.and_then(|at| course.ran.get(at)).map_or(f64::INFINITY, |ran| ran.begun);
    let (mut points, mut frozen, mut last) = (Vec::new(), 0.0, f64::NEG_INFINITY);
    for pair in course.points.windows(2) {
        let ((from, at), (to, next)) = (pair[0], pair[1]);
        let rate = (next - at) / (to - from) * 3600.0;
        if to > set_by && next > piece.sets.0 {
            frozen = anneal::stays(piece.plate, (-rate).max(0.0));
        }
        let core = match () {
            () if next > soft || (to > set_by && next > piece.sets.0) => 0.0,
            () if to > set_by => frozen + per_rate * rate,
            () => per_rate * rate,
        };
        if to - last >= CHART * 60.0 {
            points.push(Point { hours: to / 3600.0, at: Celsius(next), core });
            last = to;
        }
    }
    let end = course.points[course.points.len() - 1];
    points.push(Point { hours: end.0 / 3600.0, at: Celsius(end.1), core: frozen });
    points.insert(0, Point { hours: 0.0, at: Celsius(course.points[0].1), core: 0.0 });
    points
}
