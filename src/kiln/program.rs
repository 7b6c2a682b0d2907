//! The program of one firing, run through a kiln.

use super::bench::{Bench, segments};
use super::beyond;
use super::chart::{self, Point};
use super::clock::Clock;
use super::course::Course;
use super::flow::{Stretch, when, whole_fluid_time};
use super::piece::Piece;
use super::segment::Segment;
use super::usual::Process;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Notice};
use crate::base::units::{Celsius, Minutes, Mm, fixed, plain};
use crate::recipe::Pace;
use crate::recipe::limits::{RATE, SLUMP_HOLD};
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// The program of a firing, and what this kiln makes of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Program {
    /// Which firing.
    pub firing: Firing,
    /// The thickest place that it is made for.
    pub thick: Mm,
    /// Its segments, in order, as asked.
    pub segments: Vec<Segment>,
    /// What the kiln makes of each of them.
    pub runs: Vec<Run>,
    /// From switching on until it may be opened, hours.
    pub hours: f64,
    /// Energy, kWh, for one piece; a full shelf takes little more.
    pub kwh: f64,
    /// The integral of dt/eta until the fall has ended, 1/Pa.
    pub fluid_time: f64,
    /// How the fluid time grows: (hours from switching on, 1/Pa), from where the glass begins to flow until the fall has ended.
    pub flow: Vec<(f64, f64)>,
    /// Hours from switching on until the sheet has settled in its mold; none if it does not, or in another firing.
    pub settles: Option<f64>,
    /// Points of the chart.
    pub chart: Vec<Point>,
    /// What goes beyond its limits.
    pub notices: Vec<Notice>,
}

/// A segment in this kiln.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Run {
    /// Hours from switching on to its beginning.
    pub begins: f64,
    /// Hours on the way and held.
    pub takes: f64,
    /// Temperature at its beginning.
    pub from: Celsius,
    /// Whether the kiln keeps the rate.
    pub follows: bool,
}

/// A kiln that takes so much longer than asked, by share and minutes, does not follow.
const LATE: (f64, f64) = (0.1, 3.0);

impl Program {
    /// Makes the program of a firing. `settled` is the fluid time in which the sheet settles in its mold, 1/Pa: only a slump asks for it.
    ///
    /// # Errors
    /// A fault where this kiln does not get through it, or a glass has no viscosity.
    pub fn new(plan: &Plan, firing: Firing, bench: Bench, settled: f64) -> Result<Self, Notice> {
        let piece = Piece::new(plan, firing)?;
        let (process, notice) = match firing {
            Firing::FullFuse => (set(plan.fuse.top, plan.fuse.hold), None),
            Firing::TackFuse => (set(plan.tack.top, plan.tack.hold), None),
            Firing::Slump => sinks(plan, &piece, &Clock::new(plan, bench, plan.slump.top)?, settled),
        };
        let mut notices: Vec<_> = notice.into_iter().collect();
        let segments = segments(plan, &piece, firing, process);
        let course = bench.run(plan, firing, &segments)?;
        notices.extend(beyond::notices(&piece, firing, &segments, &course.fastest()));
        let runs = runs(&segments, &course);
        notices.extend(late(firing, &segments, &runs));
        let hot = hot(&segments, &course);
        let settles = if firing == Firing::Slump { when(&piece.flow, &hot, settled) } else { None };
        Ok(Self {
            firing,
            thick: piece.plate.thick,
            hours: course.end() / 3600.0,
            kwh: course.given / 3.6e6,
            fluid_time: whole_fluid_time(&piece.flow, &hot),
            flow: chart::growing(&piece, &hot),
            settles: settles.map(|seconds| seconds / 3600.0),
            chart: chart::chart(&piece, &segments, &course),
            segments,
            runs,
            notices,
        })
    }

    /// The segment of this name.
    pub fn segment(&self, name: SegmentName) -> Option<&Segment> {
        self.segments.iter().find(|segment| segment.name == name)
    }
}

fn set(top: Celsius, hold: Minutes) -> Process {
    Process { top, hold, until_settled: false }
}

/// Top and hold of a slump. Without a hold of the maker's it is held until the glass has settled; what it still sinks as the kiln
/// falls comes on top of that, for a mold holds it by then.
pub fn sinks(plan: &Plan, piece: &Piece, clock: &Clock, settled: f64) -> (Process, Option<Notice>) {
    let top = plan.slump.top;
    let needed = clock.minutes_of(settled).map(|minutes| minutes.max(0.0));
    if let Some(hold) = plan.slump.hold {
        let reached = clock.whole(hold) / settled;
        let notice =
            (reached < 1.0).then(|| beyond::shallow(reached, needed.filter(|m| SLUMP_HOLD.holds(*m))));
        return (set(top, hold), notice);
    }
    let most = SLUMP_HOLD.most;
    let hold = needed.unwrap_or(most).min(most).ceil();
    let notice = needed.is_none_or(|m| m > most).then(|| beyond::too_cold(piece, top, needed, most));
    (Process { top, hold: Minutes(hold), until_settled: true }, notice)
}

fn runs(segments: &[Segment], course: &Course) -> Vec<Run> {
    let one = |(segment, ran): (&Segment, &super::course::Ran)| {
        let asked = match segment.pace.value {
            Pace::PerHour(rate) => (segment.to.value.0 - ran.from).abs() / rate * 3600.0,
            Pace::AsItGoes => f64::INFINITY,
        };
        Run {
            begins: ran.begun / 3600.0,
            takes: (ran.way + ran.held) / 3600.0,
            from: Celsius(ran.from),
            follows: ran.way <= asked * (1.0 + LATE.0) + LATE.1 * 60.0,
        }
    };
    segments.iter().zip(&course.ran).map(one).collect()
}

/// The kiln is late on its way up. A late fall harms nothing.
fn late(firing: Firing, segments: &[Segment], runs: &[Run]) -> Vec<Notice> {
    let late = segments.iter().zip(runs).filter(|(segment, run)| !run.follows && segment.to.value > run.from);
    late.map(|(segment, run)| {
        let way = run.takes - segment.hold.value.0 / 60.0;
        let reached = (segment.to.value.0 - run.from.0) / way;
        let rate = ((reached / 5.0).floor() * 5.0).max(RATE.least);
        let name = segment.name.name(firing);
        beyond::note(
            firing,
            "This kiln can't follow.",
            format!(
                "On its way to {} in \"{name}\" it comes to {} K/h on average.",
                segment.to.value,
                fixed(reached, 0)
            ),
            format!("Use {} K/h, or let it run late.", plain(rate)),
            Some(Mend::Rate(firing, segment.name, rate)),
        )
    })
    .collect()
}

/// The stretches up to the end of the fall.
fn hot(segments: &[Segment], course: &Course) -> Vec<Stretch> {
    let fall = segments.iter().position(|segment| segment.name == SegmentName::Fall);
    let end = fall.and_then(|at| course.ran.get(at)).map_or(0.0, |ran| ran.begun + ran.way + ran.held);
    course.between(0.0, end)
}
