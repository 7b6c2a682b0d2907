//! The programs, stacked in the order of making, one of them open.

use super::program::{ClosedProgram, OpenProgram};
use super::state::ProgramsState;
use crate::controls::cautions::CautionsWord;
use crate::model::ids::AreaId;
use crate::words;
use dappledome::base::firing::Firing;
use leptos::prelude::*;

/// The whole area.
#[component]
pub fn FiringsArea() -> impl IntoView {
    let state = ProgramsState::new();
    provide_context(state);
    let firings = Memo::new(move |_| state.firings());
    view! {
        <section class="area firings" aria-label=words::FIRINGS tabindex="-1">
            <Head />
            <div class="programs">
                <For each=move || firings.get() key=|firing| firing.name() let:firing>
                    <OneProgram firing />
                </For>
                <p class="programs-foot">{words::FIRING_CAUTION}" "{words::NOT_YET_A_KILN}</p>
            </div>
        </section>
    }
}

/// What there is, in which kiln, and the word that lays it aside.
#[component]
fn Head() -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let nav = state.nav;
    let whole = move || {
        let all = state.firings().len();
        state.fired.firings().map(|firings| words::firings_in(&firings.programs, all))
    };
    let kiln = move || words::kiln_within(&state.kilns.kiln.read().name);
    view! {
        <div class="tray-top">
            <h2>{words::FIRINGS}</h2>
            <p class="firings-whole">
                {whole}" "{words::IN_KILN}" "
                <button class="word" on:click=move |_| nav.open_area(AreaId::SHELF)>
                    {kiln}
                </button>
            </p>
            <span class="gap"></span>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| nav.close_area()>
                {words::CLOSE_FIRINGS}
            </button>
        </div>
    }
}

/// A program, open or closed.
#[component]
fn OneProgram(
    /// Which firing.
    firing: Firing,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let open = Memo::new(move |_| state.open() == firing);
    let program = state.program(firing);
    view! {
        <Show
            when=move || open.get()
            fallback=move || view! { <ClosedProgram firing program /> }
        >
            <OpenProgram firing program />
        </Show>
    }
}
