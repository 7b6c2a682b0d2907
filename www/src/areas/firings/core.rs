//! What stays in the core of the glass, under the curve of a program.

use super::course::{Drawn, clock_axis};
use crate::controls::chart::{Axis, Chart, Level, Line, Table, Tick, Weight};
use crate::words;
use dappledome::base::firing::SegmentName;
use dappledome::kiln::anneal::MAY_STAY;
use dappledome::kiln::program::{Program, Run};

/// The strip: what stays, from the slow fall on, against the most that may.
pub fn chart(program: &Program, how: Drawn) -> Chart {
    let stays = stays(program);
    let to = f64::max(1.3 * MAY_STAY, 1.1 * stays);
    let tick = |at: f64| Tick { at, label: words::stress(at) };
    let from = run_of(program, SegmentName::Cool).map_or(program.hours, |run| run.begins);
    let until = run_of(program, SegmentName::Cool).map_or(program.hours, |run| run.begins + run.takes);
    let Axis { from: begins, to: ends, .. } = clock_axis(program.hours, how.start);
    Chart {
        x: Axis { from: begins, to: ends, ticks: Vec::new() },
        y: Axis { from: 0.0, to, ticks: vec![tick(0.0), tick(MAY_STAY)] },
        levels: vec![Level { at: MAY_STAY, name: words::most_to_leave(), below: false }],
        lines: vec![Line {
            points: vec![(from, 0.0), (from, stays), (until, stays), (until, 0.0)],
            weight: Weight::Filled,
        }],
        dots: Vec::new(),
        labels: Vec::new(),
    }
}

/// The same in words.
pub fn table(program: &Program) -> Table {
    Table {
        heads: vec![words::CORE.into()],
        rows: vec![vec![words::stays_in_core(stays(program))], vec![words::most_to_leave()]],
    }
}

/// Tension that stays in the core, MPa: what the anneal has left when all is cold.
fn stays(program: &Program) -> f64 {
    program.chart.last().map_or(0.0, |point| point.core)
}

/// The most that heating pulls, MPa; it is gone when the heating ends.
fn pulls(program: &Program) -> f64 {
    let until = run_of(program, SegmentName::Heat).map_or(0.0, |run| run.begins + run.takes);
    let heating = program.chart.iter().filter(|point| point.hours <= until);
    heating.fold(0.0, |most: f64, point| most.max(point.core))
}

fn run_of(program: &Program, name: SegmentName) -> Option<&Run> {
    let at = program.segments.iter().position(|segment| segment.name == name)?;
    program.runs.get(at)
}

/// What stands under the strip.
pub fn in_words(program: &Program) -> String {
    format!("{}. {}", words::stays_in_core(stays(program)), words::heating_pulls(pulls(program)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::shown::Units;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::kiln::firings::Firings;
    use dappledome::recipe::demo;
    use dappledome::recipe::plan::Plan;

    #[test]
    fn the_usual_anneal_leaves_no_more_than_may_stay_and_a_faster_one_more() {
        let mut recipe = demo::ember_walk();
        let fuse = |recipe: &dappledome::recipe::Recipe| {
            let plan = Plan::new(recipe).unwrap().plan;
            let firings = Firings::new(&plan, &Kiln::guess(Guess::SmallBrick)).unwrap();
            firings.programs.into_iter().next().unwrap()
        };
        let usual = fuse(&recipe);
        assert!(stays(&usual) > 0.4 && stays(&usual) <= MAY_STAY, "{}", stays(&usual));
        use dappledome::base::firing::Firing;
        recipe.programs.segment_mut(Firing::FullFuse, SegmentName::Cool).pace =
            Some(dappledome::recipe::Pace::PerHour(160.0));
        let fast = fuse(&recipe);
        assert!((stays(&fast) / stays(&usual) - 2.0).abs() < 0.05, "twice as fast, twice as much stays");
        let how = Drawn { start: 0.0, units: Units::default(), pointed: None };
        assert!(chart(&fast, how).y.to > stays(&fast), "what stays is within the strip");
        assert!(pulls(&usual) > 0.1, "{}", pulls(&usual));
    }
}
