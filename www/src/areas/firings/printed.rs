//! The programs on paper: each with its curve and its table.

use super::course::{self, Drawn};
use super::numbers::{PLACES, Which, said};
use crate::controls::chart::{ChartView, Table};
use crate::state::fired::Fired;
use crate::state::kilns::Kilns;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::kiln::piece::Piece;
use dappledome::kiln::program::Program;
use leptos::prelude::*;

/// Width and height of a curve, px: 90 x 58 mm.
const CURVE: (f64, f64) = (340.0, 219.0);

/// All programs that the kiln gets through, in the order of making.
#[component]
pub fn PrintedPrograms() -> impl IntoView {
    let (fired, kilns) = (expect_context::<Fired>(), expect_context::<Kilns>());
    let piece = expect_context::<Workpiece>();
    let head = move || {
        let all = dappledome::kiln::firings::of(&piece.made().1).len();
        let whole = words::firings_in(&fired.firings()?.programs, all);
        Some(format!("{whole} {} {}", words::IN_KILN, words::kiln_within(&kilns.kiln.read().name)))
    };
    let programs = move || {
        let firings = fired.firings()?;
        let programs = firings.programs.iter().cloned();
        Some(programs.map(|program| view! { <PrintedProgram program /> }).collect_view())
    };
    view! {
        <section class="printed-programs">
            <h3>{words::FIRINGS}</h3>
            <p>{head}</p>
            {programs}
            <p class="aside">{words::FIRING_CAUTION}" "{words::NOT_YET_A_KILN}</p>
        </section>
    }
}

/// One of them.
#[component]
fn PrintedProgram(
    /// What it is.
    program: Program,
) -> impl IntoView {
    let (kilns, preferences) = (expect_context::<Kilns>(), expect_context::<Preferences>());
    let piece = expect_context::<Workpiece>();
    let piece = Piece::new(&piece.made().1, program.firing).ok();
    let units = preferences.units.get();
    let how = Drawn { start: kilns.start.get(), units, pointed: None };
    let chart = course::chart(&program, piece.as_ref(), how);
    let head = format!(
        "{}, {}, {}",
        preferences.text(&words::top_and_hold(&program)),
        words::hours_long(program.hours),
        words::energy(program.kwh, None)
    );
    let heads = words::PROGRAM_HEADS.into_iter().take(5).map(|head| view! { <th scope="col">{head}</th> });
    let rows = program.segments.iter().zip(&program.runs).map(|(segment, run)| {
        let which = Which { firing: program.firing, segment: segment.name };
        let cells = PLACES.map(|place| view! { <td>{said(which, segment, place, units)}</td> });
        view! {
            <tr>
                <th scope="row">{words::segment(segment.name, program.firing)}</th>
                {cells}
                <td>{words::hours_long(run.takes)}</td>
            </tr>
        }
    });
    view! {
        <div class="printed-program">
            <h4>
                {words::firing(program.firing)} " "
                <span class="second">{head}</span>
            </h4>
            <ChartView
                chart=Signal::stored(chart)
                height=CURVE.1
                width=CURVE.0
                name=Signal::stored(words::chart_of(program.firing))
                table=Signal::stored(Table::default())
            />
            <table>
                <thead>
                    <tr>{heads.collect_view()}</tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}
