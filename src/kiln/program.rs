//! The program of one firing, run through a kiln.

use super::beyond;
use super::chart::{self, Point};
use super::course::{Asked, Course, Stuck, run};
use super::data::{Kiln, ROOM, mold_heat};
use super::flow::{Stretch, fluid_time_of, hold_for, reduced_time, when, whole_fluid_time};
use super::piece::Piece;
use super::segment::Segment;
use super::thermal::{DENSITY, HEAT_CAPACITY};
use super::usual::{self, Process};
use super::wall::{Heat, Wall};
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Notice, Severity};
use crate::base::units::{Celsius, Minutes, Mm, fixed, plain};
use crate::recipe::limits::{RATE, SLUMP_HOLD};
use crate::recipe::plan::Plan;
use crate::recipe::{Pace, SetSegment};
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// A kiln as programs are run in it.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
    /// The kiln.
    pub kiln: &'a Kiln,
    /// Its wall, fitted to its cooling.
    pub wall: Wall,
}

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
    /// Makes the program of a firing. `settled` is the reduced time in which the sheet settles in its mold.
    ///
    /// # Errors
    /// A fault where this kiln does not get through it, or a glass has no viscosity.
    pub fn new(plan: &Plan, firing: Firing, bench: Bench, settled: f64) -> Result<Self, Notice> {
        let piece = Piece::new(plan, firing)?;
        let heat = Heat::cold(bench.wall, inside(plan, firing, bench.kiln), ROOM);
        let watts = bench.kiln.most_watts();
        let set = plan.programs.of(firing);
        let (process, mut notices) = process(plan, firing, &piece, settled, |process| {
            let segments = with(usual::segments(&piece, firing, process), set);
            let up = segments.iter().position(|s| s.name == SegmentName::Process).map_or(0, |at| at + 1);
            let course = run(heat.clone(), watts, &asked(&segments[..up]));
            course.map_err(|stuck| told(stuck, firing, &segments, bench.kiln))
        })?;
        let segments = with(usual::segments(&piece, firing, process), set);
        let course = run(heat, watts, &asked(&segments))
            .map_err(|stuck| told(stuck, firing, &segments, bench.kiln))?;
        notices.extend(beyond::notices(&piece, firing, &segments, &course.fastest()));
        let runs = runs(&segments, &course);
        notices.extend(late(firing, &segments, &runs));
        let hot = hot(&segments, &course);
        let wanted = fluid_time_of(settled, plan.mold.opening);
        let settles = if firing == Firing::Slump { when(&piece.flow, &hot, wanted) } else { None };
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

/// Heat capacity of what is inside, J/K: the shelf, one piece, and its mold.
fn inside(plan: &Plan, firing: Firing, kiln: &Kiln) -> f64 {
    let radius = f64::from(plan.disc.radius());
    let glass = PI * radius * radius * f64::from(plan.blank_thickness()) * 1e-9 * DENSITY * HEAT_CAPACITY;
    let (half, depth) = (plan.mold.opening.0 / 2.0, plan.mold.depth.0);
    let mold = if firing == Firing::Slump { mold_heat(PI * (half * half + depth * depth)) } else { 0.0 };
    kiln.shelf_heat() + glass + mold
}

/// Top and hold; for a slump that is held until it has settled, what that takes.
fn process(
    plan: &Plan,
    firing: Firing,
    piece: &Piece,
    settled: f64,
    way_up: impl Fn(Process) -> Result<Course, Notice>,
) -> Result<(Process, Vec<Notice>), Notice> {
    let set = |top, hold| Process { top, hold, until_settled: false };
    match firing {
        Firing::FullFuse => return Ok((set(plan.fuse.top, plan.fuse.hold), Vec::new())),
        Firing::TackFuse => return Ok((set(plan.tack.top, plan.tack.hold), Vec::new())),
        Firing::Slump => {}
    }
    let top = plan.slump.top;
    let course = way_up(set(top, Minutes(0.0)))?;
    let given = whole_fluid_time(&piece.flow, &course.between(0.0, course.end()));
    let needed = hold_for(&piece.flow, top, given, fluid_time_of(settled, plan.mold.opening));
    let needed = needed.map(|seconds| seconds / 60.0);
    if let Some(hold) = plan.slump.hold {
        let reached =
            reduced_time(given + hold.0 * 60.0 * piece.flow.fluidity(top), plan.mold.opening) / settled;
        let notice =
            (reached < 1.0).then(|| beyond::shallow(reached, needed.filter(|m| SLUMP_HOLD.holds(*m))));
        return Ok((set(top, hold), notice.into_iter().collect()));
    }
    let most = SLUMP_HOLD.most;
    let hold = needed.unwrap_or(most).min(most).ceil();
    let notice = needed.is_none_or(|m| m > most).then(|| beyond::too_cold(piece, top, needed, most));
    Ok((Process { top, hold: Minutes(hold), until_settled: true }, notice.into_iter().collect()))
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
