//! The course of a program as a chart and as a table: temperature over time.

use crate::controls::chart::{Axis, Chart, Label, Level, Line, Side, Table, Tick, Weight};
use crate::words;
use dappledome::base::firing::SegmentName;
use dappledome::base::shown::{Heat, Units};
use dappledome::base::units::{Celsius, fixed};
use dappledome::kiln::piece::Piece;
use dappledome::kiln::program::{Program, Run};
use dappledome::kiln::segment::Segment;
use dappledome::recipe::Pace;

/// The top of the upright axis, °C: a segment ends at 900 at most.
const HOT: f64 = 800.0;
/// The top where a program goes beyond that.
const HOTTER: f64 = 1000.0;
/// Least length of a way that has its rate written on it, as a share of the whole.
const LONG_ENOUGH: f64 = 0.03;

/// How a program is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Drawn {
    /// When the kiln is switched on, minutes past midnight.
    pub start: f64,
    /// The units of what is shown.
    pub units: Units,
    /// The segment that stands in weight.
    pub pointed: Option<SegmentName>,
}

/// The chart.
pub fn chart(program: &Program, piece: Option<&Piece>, how: Drawn) -> Chart {
    let points = points(program);
    let plain = Line { points: points.clone(), weight: Weight::Plain };
    let pointed = how.pointed.and_then(|name| run_of(program, name)).map(|(_, run)| {
        let (begins, ends) = (run.begins - 1e-9, run.begins + run.takes + 1e-9);
        let part = points.iter().copied().filter(|(hours, _)| (begins..=ends).contains(hours));
        let ends_at = [begins, ends].map(|hours| (hours, temperature(program, hours)));
        let [first, last] = ends_at;
        Line { points: std::iter::once(first).chain(part).chain([last]).collect(), weight: Weight::Strong }
    });
    Chart {
        x: clock_axis(program.hours, how.start),
        y: heat_axis(program, how.units),
        levels: piece.map_or_else(Vec::new, |piece| levels(piece, how.units)),
        lines: std::iter::once(plain).chain(pointed).collect(),
        dots: Vec::new(),
        labels: labels(program, how.units),
    }
}

/// The curve alone, for a program that is closed.
pub fn small(program: &Program) -> Chart {
    let axis = |to| Axis { from: 0.0, to, ticks: Vec::new() };
    Chart {
        x: axis(program.hours),
        y: axis(top_of(program)),
        lines: vec![Line { points: points(program), weight: Weight::Plain }],
        ..Chart::default()
    }
}

/// The course as a table, half an hour from line to line.
pub fn table(program: &Program, how: Drawn) -> Table {
    let steps = (program.hours * 2.0).ceil() as usize;
    let hours = (0..steps).map(|step| step as f64 / 2.0).chain([program.hours]);
    let row = |hours: f64| {
        let heat = Celsius(temperature(program, hours).round());
        vec![
            words::clock(how.start + hours * 60.0),
            words::hours_long(hours),
            how.units.text(&heat.to_string()),
        ]
    };
    Table { heads: words::COURSE_HEADS.map(Into::into).into(), rows: hours.map(row).collect() }
}

/// Clock times along the lying axis.
pub fn clock_axis(hours: f64, start: f64) -> Axis {
    let step =
        [1.0, 2.0, 3.0, 4.0, 6.0, 12.0, 24.0].into_iter().find(|step| hours / step <= 9.0).unwrap_or(48.0);
    let ticks = (0..=(hours / step) as usize).map(|n| {
        let at = n as f64 * step;
        Tick { at, label: words::clock(start + at * 60.0) }
    });
    Axis { from: 0.0, to: hours, ticks: ticks.collect() }
}

fn points(program: &Program) -> Vec<(f64, f64)> {
    program.chart.iter().map(|point| (point.hours, point.at.0)).collect()
}

fn top_of(program: &Program) -> f64 {
    let most = program.chart.iter().fold(0.0, |most: f64, point| most.max(point.at.0));
    if most > HOT - 5.0 { HOTTER } else { HOT }
}

/// Temperatures along the upright axis, round ones in the shown unit.
fn heat_axis(program: &Program, units: Units) -> Axis {
    let to = top_of(program);
    let (step, back): (f64, fn(f64) -> f64) = match units.heat {
        Heat::Celsius => (200.0, |shown| shown),
        Heat::Fahrenheit => (400.0, |shown| (shown - 32.0) / 1.8),
    };
    let ticks = (0..=10).map(|n| f64::from(n) * step).map(|shown| {
        let label = format!("{}{}", fixed(shown, 0), if shown == 0.0 { units.heat_sign() } else { "" });
        Tick { at: back(shown), label }
    });
    Axis { from: 0.0, to, ticks: ticks.filter(|tick| (0.0..=to).contains(&tick.at)).collect() }
}

fn levels(piece: &Piece, units: Units) -> Vec<Level> {
    let level = |name: &str, at: Celsius, below| Level {
        at: at.0,
        name: format!("{name} {}", fixed(units.heat(at.0), 0)),
        below,
    };
    vec![
        level(words::SOFTENING, piece.flow.softening(), false),
        level(words::ANNEALING, piece.anneal.annealing(), false),
        level(words::STRAIN, piece.sets, true),
    ]
}

fn run_of(program: &Program, name: SegmentName) -> Option<(&Segment, &Run)> {
    program.segments.iter().zip(&program.runs).find(|(segment, _)| segment.name == name)
}

/// The temperature at a moment, °C.
fn temperature(program: &Program, hours: f64) -> f64 {
    let pair = program.chart.windows(2).find(|pair| pair[1].hours >= hours);
    let Some([from, to]) = pair else { return program.chart.last().map_or(0.0, |last| last.at.0) };
    let share = (hours - from.hours) / (to.hours - from.hours);
    if share.is_finite() { from.at.0 + (to.at.0 - from.at.0) * share.clamp(0.0, 1.0) } else { to.at.0 }
}

/// The numbers along the curve, the top first.
fn labels(program: &Program, units: Units) -> Vec<Label> {
    let parts = || program.segments.iter().zip(&program.runs);
    let top = run_of(program, SegmentName::Process).map(|(segment, run)| {
        let hold = segment.hold.value.0 / 60.0;
        let text = format!("{}, {}", segment.to.value, words::minutes(segment.hold.value.0));
        let at = (run.begins + run.takes - hold / 2.0, segment.to.value.0);
        Label { at, side: Side::Above, text: units.text(&text), strong: true }
    });
    let end = program.segments.last().map(|segment| Label {
        at: (program.hours, segment.to.value.0),
        side: Side::Left,
        text: units.text(&segment.to.value.to_string()),
        strong: false,
    });
    let rates = parts().filter_map(|(segment, run)| rate_label(program, segment, run, units));
    let holds = parts().filter_map(|(segment, run)| hold_label(segment, run));
    let mut labels: Vec<Label> = top.into_iter().collect();
    labels.extend(rates);
    labels.extend(holds);
    labels.extend(end);
    labels
}

/// What is written on a way, if it is long enough.
fn rate_label(program: &Program, segment: &Segment, run: &Run, units: Units) -> Option<Label> {
    let way = run.takes - segment.hold.value.0 / 60.0;
    if way < LONG_ENOUGH * program.hours {
        return None;
    }
    let middle = run.begins + way / 2.0;
    let text = match segment.pace.value {
        Pace::PerHour(rate) => units.text(&format!("{} °C/h", fixed(rate, 0))),
        Pace::AsItGoes => words::AS_IT_GOES.into(),
    };
    let side = if segment.to.value > run.from { Side::Left } else { Side::Right };
    Some(Label { at: (middle, temperature(program, middle)), side, text, strong: false })
}

fn hold_label(segment: &Segment, run: &Run) -> Option<Label> {
    let hold = segment.hold.value.0;
    if segment.name == SegmentName::Process || hold <= 0.0 {
        return None;
    }
    let at = (run.begins + run.takes - hold / 120.0, segment.to.value.0);
    Some(Label { at, side: Side::Below, text: words::minutes(hold), strong: false })
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::firing::Firing;
    use dappledome::base::shown::Lengths;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::kiln::firings::Firings;
    use dappledome::recipe::demo;
    use dappledome::recipe::plan::Plan;

    const METRIC: Drawn = Drawn {
        start: 1080.0,
        units: Units { lengths: Lengths::Millimeters, heat: Heat::Celsius },
        pointed: None,
    };

    fn fuse() -> (Program, Piece) {
        let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
        let firings = Firings::new(&plan, &Kiln::guess(Guess::SmallBrick)).unwrap();
        let piece = Piece::new(&plan, Firing::FullFuse).unwrap();
        (firings.programs.into_iter().next().unwrap(), piece)
    }

    #[test]
    fn the_curve_begins_in_the_room_and_ends_where_it_may_be_opened() {
        let (program, piece) = fuse();
        let chart = chart(&program, Some(&piece), METRIC);
        let line = &chart.lines[0].points;
        assert_eq!(line[0], (0.0, 20.0));
        let end = line[line.len() - 1];
        // A kiln is stepped by the minute: at some 15 K/h it may be opened within a third of a kelvin.
        assert!((end.0 - program.hours).abs() < 1e-9 && (59.66..=60.01).contains(&end.1), "{end:?}");
        let highest = line.iter().fold(0.0, |most: f64, point| most.max(point.1));
        assert!((highest - 790.0).abs() < 1.0, "{highest}");
        let names: Vec<&str> = chart.levels.iter().map(|level| level.name.as_str()).collect();
        assert_eq!(names, ["softening 680", "annealing 510", "strain 483"]);
        assert_eq!(chart.labels[0].text, "790 °C, 10 min");
        assert_eq!((chart.x.ticks[0].label.as_str(), chart.x.ticks[1].label.as_str()), ("18:00", "20:00"));
    }

    #[test]
    fn what_is_pointed_at_is_the_part_of_its_segment() {
        let (program, piece) = fuse();
        let pointed = Drawn { pointed: Some(SegmentName::Heat), ..METRIC };
        let chart = chart(&program, Some(&piece), pointed);
        assert_eq!(chart.lines[1].weight, Weight::Strong);
        let part = &chart.lines[1].points;
        let (first, last) = (part[0], part[part.len() - 1]);
        assert!((first.1 - 20.0).abs() < 1e-6 && (last.1 - 540.0).abs() < 2.0, "{first:?} {last:?}");
    }

    #[test]
    fn temperatures_stand_at_round_numbers_of_the_shown_unit() {
        let (program, _) = fuse();
        let units = Units { heat: Heat::Fahrenheit, ..Units::default() };
        let axis = heat_axis(&program, units);
        let labels: Vec<&str> = axis.ticks.iter().map(|tick| tick.label.as_str()).collect();
        assert_eq!(labels, ["400", "800", "1200"]);
        assert!((axis.ticks[0].at - 204.444).abs() < 1e-3, "400 °F");
    }

    #[test]
    fn the_table_says_what_the_curve_shows() {
        let (program, _) = fuse();
        let table = table(&program, METRIC);
        assert_eq!(table.rows[0], ["18:00", "0 min", "20 °C"]);
        let end = &table.rows[table.rows.len() - 1];
        assert_eq!(end[2], "60 °C");
        // Two hours at the usual 140 K/h.
        assert_eq!(table.rows[4], ["20:00", "2 h 00", "300 °C"]);
    }
}
