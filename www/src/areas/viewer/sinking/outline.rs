//! The section as lines, in mm: mold, glass, and where they touch.

use crate::model::sinking::Course;
use dappledome::base::units::fixed;
use dappledome::slump::profile::{Piece, Profile};
use dappledome::slump::trajectory::Moment;
use std::iter::once;

/// A place of the section: mm from the axis, and up from the plane of the mold's opening.
type Place = (f64, f64);

/// The drawing goes on so far beyond mold and disc, as a share of them.
const BESIDE: f64 = 0.08;
/// Mold below its lowest place, mm.
const BELOW: f64 = 6.0;
/// Table above the glass as it lies at first, mm.
const ABOVE: f64 = 3.0;
/// The drawing is at most so high, as a share of its width.
const HIGHEST: f64 = 0.31;
/// Straights that an arc is drawn as.
const STRAIGHTS: usize = 24;

/// What of the section is drawn, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// From the axis to the edge.
    pub half: f64,
    /// The top edge.
    pub top: f64,
    /// The lower edge.
    pub bottom: f64,
}

impl Frame {
    /// That of a whole slump.
    pub fn of(course: &Course) -> Self {
        let (low, high) = profile(course).heights();
        let inputs = course.way().inputs();
        let first = course.way().at(0.0).shape.nodes.iter().fold(high, |most, node| most.max(node.1));
        let (top, bottom) = (first + inputs.thickness / 2.0 + ABOVE, low - BELOW);
        let widest = (inputs.mold.opening.0 / 2.0).max(inputs.radius + inputs.thickness);
        let half = ((1.0 + BESIDE) * widest).max((top - bottom) / HIGHEST / 2.0);
        Self { half, top, bottom }
    }

    /// As the drawing's own frame.
    pub fn view_box(&self) -> String {
        format!("0 0 {} {}", fixed(2.0 * self.half, 2), fixed(self.top - self.bottom, 2))
    }

    /// Its width for each mm of height.
    pub fn ratio(&self) -> f64 {
        2.0 * self.half / (self.top - self.bottom)
    }

    /// How far from its left edge something lies, 0 to 1.
    pub fn across(&self, r: f64) -> f64 {
        (r + self.half) / (2.0 * self.half)
    }

    /// How far below its top edge something lies, 0 to 1.
    pub fn down(&self, z: f64) -> f64 {
        (self.top - z) / (self.top - self.bottom)
    }

    fn point(&self, (r, z): Place) -> String {
        format!("{} {}", fixed(r + self.half, 2), fixed(self.top - z, 2))
    }

    /// Straights from place to place.
    fn line(&self, places: impl Iterator<Item = Place>) -> String {
        let points: Vec<String> = places.map(|place| self.point(place)).collect();
        format!("M{}", points.join("L"))
    }

    /// From the left edge to the right one, of a line from the axis outward.
    fn both_sides(&self, right: &[Place]) -> String {
        self.line(mirrored(right).chain(right.iter().copied()))
    }

    /// The mold, down to the lower edge.
    pub fn mold(&self, course: &Course) -> String {
        let mut right = surface(&profile(course), self.half);
        right.push((self.half, self.bottom));
        format!("{}Z", self.both_sides(&right))
    }

    /// The glass, its rim round.
    pub fn glass(&self, moment: &Moment) -> String {
        let (upper, lower) = faces(moment);
        let half = moment.shape.thickness(upper.len() - 1) / 2.0;
        let round = |to: Place| format!("A{0} {0} 0 0 1 {1}", fixed(half, 2), self.point(to));
        let last = upper.len() - 1;
        let below = lower.iter().rev().copied().chain(lower.iter().skip(1).map(|(r, z)| (-r, *z)));
        let below = self.line(below).replace('M', "L");
        format!(
            "{}{}{below}{}Z",
            self.both_sides(&upper),
            round(lower[last]),
            round((-upper[last].0, upper[last].1))
        )
    }

    /// The face of the glass that is not toward the mold.
    pub fn inner_face(&self, moment: &Moment) -> String {
        self.both_sides(&faces(moment).0)
    }

    /// Where it touches, as lines, and their ends as dots.
    pub fn touches(&self, moment: &Moment) -> (String, String) {
        let (_, lower) = faces(moment);
        let (mut lines, mut dots) = (String::new(), String::new());
        for run in runs(moment) {
            let right = &lower[run.0..=run.1];
            let left: Vec<Place> = right.iter().map(|(r, z)| (-r, *z)).collect();
            for side in [right, &left] {
                lines += &self.line(side.iter().copied());
                for end in [side[0], side[side.len() - 1]] {
                    dots += &self.line([end, end].into_iter());
                }
            }
        }
        (lines, dots)
    }

    /// From a place of the section to the right edge, at so much of its height.
    pub fn leader(&self, from: Place, down: f64) -> String {
        let z = self.top - down * (self.top - self.bottom);
        // Level first at the edge, where the words stand.
        self.line([from, (self.half * 0.94, z), (self.half, z)].into_iter())
    }
}

fn profile(course: &Course) -> Profile {
    let inputs = course.way().inputs();
    Profile::new(&inputs.mold, inputs.lip, inputs.thickness)
}

/// The left half of a line from the axis outward, from outside in.
fn mirrored(right: &[Place]) -> impl Iterator<Item = Place> {
    right.iter().rev().map(|(r, z)| (-r, *z))
}

/// The mold's surface from the axis to so far out.
fn surface(profile: &Profile, half: f64) -> Vec<Place> {
    let places = profile.pieces().iter().flat_map(places);
    places.take_while(|place| place.0 < half).chain(once((half, 0.0))).collect()
}

/// A piece of the mold as places.
fn places(piece: &Piece) -> Vec<Place> {
    match *piece {
        Piece::Straight { .. } => {
            let (first, last) = piece.ends();
            vec![first, last]
        }
        Piece::Arc { middle, radius, first, last, .. } => (0..=STRAIGHTS)
            .map(|at| {
                let share = at as f64 / STRAIGHTS as f64;
                let (x, y) = (first.0 + share * (last.0 - first.0), first.1 + share * (last.1 - first.1));
                let length = (x * x + y * y).sqrt();
                (middle.0 + radius * x / length, middle.1 + radius * y / length)
            })
            .collect(),
    }
}

/// The upper and the lower face of the glass, from the axis outward.
fn faces(moment: &Moment) -> (Vec<Place>, Vec<Place>) {
    let shape = &moment.shape;
    let face = |side: f64| {
        let place = |ring: usize| {
            let (r, z) = shape.nodes[ring];
            let (along, half) = (along(moment, ring), side * shape.thickness(ring) / 2.0);
            (r - half * along.1, z + half * along.0)
        };
        (0..shape.nodes.len()).map(place).collect()
    };
    (face(1.0), face(-1.0))
}

/// Where a section goes at a ring, of length 1: level on the axis.
fn along(moment: &Moment, ring: usize) -> Place {
    let elements = &moment.shape.elements;
    if ring == 0 {
        return (1.0, 0.0);
    }
    let (a, b) = (elements[ring - 1].along, elements[ring.min(elements.len() - 1)].along);
    let (r, z) = (a.0 + b.0, a.1 + b.1);
    let length = (r * r + z * z).sqrt().max(1e-9);
    (r / length, z / length)
}

/// The first and the last of the rings, one beside the other, that touch.
fn runs(moment: &Moment) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for ring in (0..moment.shape.nodes.len()).filter(|ring| moment.touches(*ring)) {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == ring => run.1 = ring,
            _ => runs.push((ring, ring)),
        }
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::recipe::demo;
    use dappledome::recipe::plan::Plan;

    fn course() -> Course {
        let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
        Course::new(&plan, &Kiln::guess(Guess::SmallBrick)).expect("it sinks")
    }

    /// All numbers of a path's places, in pairs; a rim's arc has five more in front of its place.
    fn pairs(path: &str) -> Vec<Place> {
        let commands = path.split(['M', 'L', 'A', 'Z']).filter(|part| !part.is_empty());
        commands
            .map(|part| {
                let numbers: Vec<f64> = part.split(' ').map(|number| number.parse().unwrap()).collect();
                (numbers[numbers.len() - 2], numbers[numbers.len() - 1])
            })
            .collect()
    }

    #[test]
    fn the_mold_is_as_deep_and_wide_as_it_is() {
        let course = course();
        let surface = surface(&profile(&course), 100.0);
        assert_eq!(surface[0], (0.0, -48.0));
        // Where a bowl of 160 by 48 mm is 20 mm from its axis: on a sphere of R = (80² + 48²) / 96 = 90.667 mm.
        let sphere = |r: f64| 90.667 - 48.0 - (90.667f64 * 90.667 - r * r).sqrt();
        for (r, z) in surface.iter().filter(|place| place.0 < 70.0) {
            assert!((sphere(*r) - z).abs() < 0.01, "{z} at {r}");
        }
    }

    #[test]
    fn all_of_the_glass_is_in_the_frame_and_the_same_on_both_sides() {
        let course = course();
        let frame = Frame::of(&course);
        let (first, last) = course.span();
        for minutes in [first, 0.0, 8.0, last] {
            let glass = pairs(&frame.glass(&course.at(minutes)));
            assert!(glass.iter().all(|(x, y)| {
                (0.0..=2.0 * frame.half).contains(x) && (0.0..=frame.top - frame.bottom).contains(y)
            }));
            for (x, y) in &glass {
                let other = (2.0 * frame.half - x, *y);
                let has = glass.iter().any(|(x, y)| (x - other.0).abs() < 0.02 && (y - other.1).abs() < 0.02);
                assert!(has, "{other:?} is missing at {minutes}");
            }
        }
    }

    /// Laid flat, the drawn faces are as far apart as the glass is thick: 160 mm of 6.2 mm, a little drawn in by its fuse.
    #[test]
    fn the_faces_are_a_thickness_apart() {
        let course = course();
        let (upper, lower) = faces(&course.at(course.span().0));
        assert!((upper[0].1 - lower[0].1 - course.way().inputs().thickness).abs() < 0.02);
        assert!((6.1..6.5).contains(&(upper[30].1 - lower[30].1)));
    }
}
