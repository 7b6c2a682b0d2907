//! The tray in place of the piece.

use super::compare::Comparison;
use super::grid::SisterGrid;
use super::panel::TrayPanel;
use super::shortlist::Shortlist;
use crate::controls::cautions::CautionsWord;
use crate::services::render::sisters::SisterRenderer;
use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::viewing::Viewing;
use crate::words;
use leptos::prelude::*;

/// The whole area.
#[component]
pub fn TrayArea() -> impl IntoView {
    view! {
        <section class="area tray" id="tray" aria-label=words::TRAY tabindex="-1">
            <TopLine />
            <div class="pair-place">
                <Comparison />
            </div>
            <SisterGrid />
            <div class="panel-below">
                <TrayPanel />
            </div>
            <Shortlist />
        </section>
    }
}

#[component]
fn TopLine() -> impl IntoView {
    let (nav, viewing) = (expect_context::<Nav>(), expect_context::<Viewing>());
    view! {
        <div class="tray-top">
            <h2>{words::TRAY}</h2>
            <Filling />
            <span class="gap"></span>
            <button class="table-word" on:click=move |_| viewing.next_light()>
                {move || words::light(viewing.light.get())}
            </button>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| nav.close_area()>{words::CLOSE_TRAY}</button>
        </div>
    }
}

/// How far the tray is filled and the word that stops it; once it is full, the word that lays more.
#[component]
fn Filling() -> impl IntoView {
    let (tray, results) = (expect_context::<Tray>(), expect_context::<Results>());
    let renderer = expect_context::<SisterRenderer>();
    let progress = Memo::new(move |_| {
        tray.seeds.with(|seeds| (seeds.iter().filter(|seed| results.is_drawn(**seed)).count(), seeds.len()))
    });
    let filling = move || {
        let (drawn, of) = progress.get();
        drawn < of
    };
    let more = move || {
        view! {
            <button class="table-word" on:click=move |_| tray.lay_more()>{words::MORE_SISTERS}</button>
        }
    };
    view! {
        <Show when=filling fallback=more>
            <span class="filling">
                <span>{move || words::laid(progress.get())}</span>
                <button class="table-word" on:click=move |_| renderer.stop()>{words::STOP}</button>
            </span>
        </Show>
    }
}
