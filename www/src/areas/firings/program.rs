//! One program: closed, as a line with its curve; open, with its chart and its table.

use super::core;
use super::course::{self, Drawn};
use super::start::StartTime;
use super::state::ProgramsState;
use super::table::ProgramTable;
use crate::areas::sheet::StepNotices;
use crate::controls::chart::{Chart, ChartView, Table};
use crate::model::ids::AreaId;
use crate::state::log::Log;
use crate::state::results::Results;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::notice::Step;
use dappledome::kiln::program::Program;
use leptos::prelude::*;

/// Heights, px.
const CHART: f64 = 214.0;
const STRIP: f64 = 72.0;
const SMALL: f64 = 32.0;

/// A closed program: pressed, it opens.
#[component]
pub fn ClosedProgram(
    /// Which firing.
    firing: Firing,
    /// What it is.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let small = move || program.with(|program| program.as_ref().map(course::small).unwrap_or_default());
    let said = move || {
        program.with(|program| match program {
            Some(one) => format!("{}, {}", words::top_and_hold(one), words::energy(one.kwh, None)),
            None => words::NO_PROGRAM.into(),
        })
    };
    let times = move || {
        let start = state.kilns.start.get();
        program.with(|program| program.as_ref().map(|program| words::from_until(start, program.hours)))
    };
    view! {
        <button class="program closed" aria-expanded="false" on:click=move |_| state.show(firing)>
            <span class="small-curve">
                <ChartView
                    chart=Signal::derive(small)
                    height=SMALL
                    name=Signal::stored(String::new())
                    table=Signal::stored(Table::default())
                />
            </span>
            <span>
                <b>{words::firing(firing)}</b>
                " "
                <span class="second">{move || state.preferences.text(&said())}</span>
            </span>
            <span class="program-times">{times}</span>
        </button>
    }
}

/// An open program.
#[component]
pub fn OpenProgram(
    /// Which firing.
    firing: Firing,
    /// What it is.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let there = Memo::new(move |_| program.with(Option::is_some));
    view! {
        <section class="program open" aria-label=words::firing(firing)>
            <ProgramHead firing program />
            <StepNotices step=Step::from(firing) />
            <Show when=move || there.get() fallback=|| view! { <p>{words::NO_PROGRAM}</p> }>
                <Charts firing program />
                <ProgramTable firing program />
            </Show>
        </section>
    }
}

/// Its name, its energy, and from when to when it lasts.
#[component]
fn ProgramHead(
    /// Which firing.
    firing: Firing,
    /// What it is.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let energy = move || {
        let firings = state.fired.firings()?;
        let at = firings.programs.iter().position(|program| program.firing == firing)?;
        let cost = firings.costs.as_ref().and_then(|costs| costs.get(at)).copied();
        let energy = words::energy(firings.programs[at].kwh, cost);
        Some(format!("{energy}, {}", words::reckoned(firings.metered)))
    };
    let opens = move || {
        let start = state.kilns.start.get();
        program.with(|program| program.as_ref().map(|program| words::open_at(start, program.hours)))
    };
    let (log, results) = (expect_context::<Log>(), expect_context::<Results>());
    let log = move |_| {
        if log.write_up_piece(state.piece, state.fired, state.kilns, results, firing) {
            state.nav.open_area(AreaId::LOG);
        }
    };
    view! {
        <div class="program-head">
            <h3>{words::firing(firing)}</h3>
            <span class="second">{energy}</span>
            <span class="gap"></span>
            <button class="word" on:click=log>{words::LOG_THIS}</button>
            <span class="program-times">
                {words::START}" "<StartTime />
                {move || opens().map(|(before, time)| view! { {before} <b>{time}</b> })}
            </span>
        </div>
    }
}

/// The curve, and under it what stays in the core.
#[component]
fn Charts(
    /// Which firing.
    firing: Firing,
    /// What it is.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let how = move || Drawn {
        start: state.kilns.start.get(),
        units: state.preferences.units.get(),
        pointed: state.pointed.get(),
    };
    let of = move |draw: fn(&Program, Drawn) -> Chart| {
        let how = how();
        program.with(|program| program.as_ref().map(|program| draw(program, how)).unwrap_or_default())
    };
    let curve = Memo::new(move |_| {
        let (piece, how) = (state.seen(firing), how());
        program.with(|program| {
            program.as_ref().map(|program| course::chart(program, piece.as_ref(), how)).unwrap_or_default()
        })
    });
    let strip = Memo::new(move |_| of(core::chart));
    let table = move || {
        let how = how();
        program
            .with(|program| program.as_ref().map(|program| course::table(program, how)).unwrap_or_default())
    };
    let strip_table = move || program.with(|program| program.as_ref().map(core::table).unwrap_or_default());
    let core_said = move || program.with(|program| program.as_ref().map(core::in_words));
    view! {
        <ChartView
            chart=curve
            height=CHART
            name=Signal::stored(words::chart_of(firing))
            table=Signal::derive(table)
        />
        <ChartView
            chart=strip
            height=STRIP
            name=Signal::stored(words::CORE.to_owned())
            table=Signal::derive(strip_table)
        />
        <p class="aside">{core_said}</p>
    }
}
