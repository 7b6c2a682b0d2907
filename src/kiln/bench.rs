//! A kiln as programs are run in it, and what it is asked in them.

use super::cooling;
use super::course::{Asked, Course, Stuck, run};
use super::data::{Kiln, ROOM, mold_heat};
use super::piece::Piece;
use super::segment::Segment;
use super::thermal::{DENSITY, HEAT_CAPACITY};
use super::usual::{self, Process};
use super::wall::{Heat, Wall};
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Notice, Severity};
use crate::base::units::{fixed, plain};
use crate::recipe::plan::Plan;
use crate::recipe::{Pace, SetSegment};
use std::f64::consts::PI;

/// A kiln as programs are run in it.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
    /// The kiln.
    pub kiln: &'a Kiln,
    /// Its wall, fitted to its cooling.
    pub wall: Wall,
}

impl<'a> Bench<'a> {
    /// A kiln, its wall as its cooling says.
    pub fn of(kiln: &'a Kiln) -> Self {
        Self { kiln, wall: cooling::wall(kiln, kiln.shelf_heat()).0 }
    }

    /// Runs the first segments of a firing, from cold.
    ///
    /// # Errors
    /// A fault where this kiln does not get through them.
    pub fn run(&self, plan: &Plan, firing: Firing, segments: &[Segment]) -> Result<Course, Notice> {
        let heat = Heat::cold(self.wall, inside(plan, firing, self.kiln), ROOM);
        run(heat, self.kiln.most_watts(), &asked(segments))
            .map_err(|stuck| told(stuck, firing, segments, self.kiln))
    }
}

/// The segments of a firing: as usual, with what the maker has set in them.
pub fn segments(plan: &Plan, piece: &Piece, firing: Firing, process: Process) -> Vec<Segment> {
    with(usual::segments(piece, firing, process), plan.programs.of(firing))
}

/// Heat capacity of what is inside, J/K: the shelf, one piece, and its mold.
fn inside(plan: &Plan, firing: Firing, kiln: &Kiln) -> f64 {
    let radius = f64::from(plan.disc.radius());
    let glass = PI * radius * radius * f64::from(plan.blank_thickness()) * 1e-9 * DENSITY * HEAT_CAPACITY;
    let (half, depth) = (plan.mold.opening.0 / 2.0, plan.mold.depth.0);
    let mold = if firing == Firing::Slump { mold_heat(PI * (half * half + depth * depth)) } else { 0.0 };
    kiln.shelf_heat() + glass + mold
}

/// The usual segments with what the maker has set in them.
fn with(segments: Vec<Segment>, set: &[SetSegment]) -> Vec<Segment> {
    let anneal = set.iter().find(|set| set.segment == SegmentName::Anneal).and_then(|set| set.to);
    let one = |segment: Segment| {
        let Segment { name, pace, to, hold } = segment;
        let set = set.iter().find(|set| set.segment == name);
        // The fall ends where the anneal begins, wherever the maker has that.
        let end = if name == SegmentName::Fall { anneal } else { set.and_then(|set| set.to) };
        Segment {
            name,
            pace: pace.set(set.and_then(|set| set.pace)),
            to: to.set(end),
            hold: hold.set(set.and_then(|set| set.hold)),
        }
    };
    segments.into_iter().map(one).collect()
}

fn asked(segments: &[Segment]) -> Vec<Asked> {
    let one = |segment: &Segment| Asked {
        rate: match segment.pace.value {
            Pace::PerHour(rate) => Some(rate / 3600.0),
            Pace::AsItGoes => None,
        },
        to: segment.to.value.0,
        hold: segment.hold.value.0 * 60.0,
        on: segment.name != SegmentName::Off,
    };
    segments.iter().map(one).collect()
}

/// A kiln that gets stuck, said.
fn told(stuck: Stuck, firing: Firing, segments: &[Segment], kiln: &Kiln) -> Notice {
    let (at, what, why) = match stuck {
        Stuck::TooWeak(at, reaches) => {
            let why = format!(
                "With {} kW it comes no higher than {} °C, and its {} asks for {}.",
                plain(kiln.most_watts() / 1e3),
                fixed(reaches, 0),
                firing.name(),
                segments[at].to.value
            );
            (at, "A kiln too weak for its target.", why)
        }
        Stuck::TooSlow(at) => (at, "A firing that does not end.", "It would last longer than a week.".into()),
    };
    let name = segments[at].name.name(firing);
    Notice::new(
        Severity::Fault,
        firing.into(),
        what,
        why,
        format!("Look the kiln's power, size and walls up again, or ask less of it in \"{name}\"."),
    )
}
