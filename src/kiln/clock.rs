//! The clock of a slump: how the fluid time of its glass grows with the minutes since its top was reached.

use super::bench::{Bench, segments};
use super::flow::{Stretch, fluid_time, hold_for, when, whole_fluid_time};
use super::piece::Piece;
use super::usual::Process;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::Notice;
use crate::base::units::{Celsius, Minutes};
use crate::glass::viscosity::Viscosity;
use crate::recipe::plan::Plan;

/// The hold, minutes, whose fall is looked at where the recipe sets none: how warm the kiln's walls are by then changes its fall little.
const SOME_HOLD: f64 = 15.0;

/// How the fluid time grows in a slump, whatever its hold. Minutes count from when its top is reached; on the way up they are below zero.
#[derive(Clone, Debug, PartialEq)]
pub struct Clock {
    /// The way up.
    up: Vec<Stretch>,
    /// The fluid time on it, 1/Pa.
    given: f64,
    /// That of the fall behind the hold, 1/Pa.
    fall: f64,
    /// How the sheets flow.
    flow: Viscosity,
    top: Celsius,
}

impl Clock {
    /// The clock of a plan's slump in a kiln, with this top.
    ///
    /// # Errors
    /// A fault where the kiln does not get through it, or a glass has no viscosity.
    pub fn new(plan: &Plan, bench: Bench, top: Celsius) -> Result<Self, Notice> {
        let piece = Piece::new(plan, Firing::Slump)?;
        let hold = plan.slump.hold.unwrap_or(Minutes(SOME_HOLD));
        let segments = segments(plan, &piece, Firing::Slump, Process { top, hold, until_settled: false });
        let at = |name| segments.iter().position(|segment| segment.name == name);
        let (process, fall) = (at(SegmentName::Process), at(SegmentName::Fall));
        let last = fall.or(process).map_or(segments.len(), |at| at + 1);
        let course = bench.run(plan, Firing::Slump, &segments[..last])?;
        let reached = process.and_then(|at| course.ran.get(at)).copied();
        let (begins, ends) = reached.map_or((course.end(), course.end()), |ran| {
            (ran.begun + ran.way, ran.begun + ran.way + ran.held)
        });
        let up = course.between(0.0, begins);
        let flow = piece.flow;
        let given = whole_fluid_time(&flow, &up);
        let fall = whole_fluid_time(&flow, &course.between(ends, course.end()));
        Ok(Self { up, given, fall, flow, top })
    }

    /// The top.
    pub fn top(&self) -> Celsius {
        self.top
    }

    /// The fluid time until so many minutes after the top was reached, as if it were held for ever, 1/Pa.
    pub fn given_at(&self, minutes: f64) -> f64 {
        if minutes >= 0.0 {
            return self.given + minutes * 60.0 * self.flow.fluidity(self.top);
        }
        let (mut left, mut sum) = (self.seconds_up() + minutes * 60.0, 0.0);
        for stretch in &self.up {
            if left < stretch.seconds {
                let share = (left / stretch.seconds).max(0.0);
                return sum + fluid_time(&self.flow, stretch.part(share));
            }
            (left, sum) = (left - stretch.seconds, sum + fluid_time(&self.flow, *stretch));
        }
        sum
    }

    /// How hot it is so many minutes after the top was reached, as if it were held for ever.
    pub fn heat_at(&self, minutes: f64) -> Celsius {
        let mut left = self.seconds_up() + minutes * 60.0;
        for stretch in &self.up {
            if left < stretch.seconds {
                return stretch.part((left / stretch.seconds).max(0.0)).to;
            }
            left -= stretch.seconds;
        }
        self.top
    }

    /// The minutes at which the fluid time comes to so much, 1/Pa; none if it never does.
    pub fn minutes_of(&self, given: f64) -> Option<f64> {
        if given < self.given {
            return when(&self.flow, &self.up, given).map(|seconds| (seconds - self.seconds_up()) / 60.0);
        }
        hold_for(&self.flow, self.top, self.given, given).map(|seconds| seconds / 60.0)
    }

    /// The fluid time of the whole slump with this hold, its fall too, 1/Pa.
    pub fn whole(&self, hold: Minutes) -> f64 {
        self.given_at(hold.0) + self.fall
    }

    /// The hold whose slump comes to so much fluid time, its fall counted, 1/Pa; nothing where way up and fall give as much, none
    /// where glass does not flow.
    pub fn hold_of(&self, whole: f64) -> Option<Minutes> {
        hold_for(&self.flow, self.top, self.given + self.fall, whole).map(|seconds| Minutes(seconds / 60.0))
    }

    fn seconds_up(&self) -> f64 {
        self.up.iter().map(|stretch| stretch.seconds).sum()
    }
}
