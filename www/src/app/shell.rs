//! The page's frame: what stands on it side by side.

use super::{contexts, keys, surroundings};
use crate::areas::printed_ticket::PrintedTicket;
use crate::areas::sheet::Sheet;
use crate::areas::viewer::Viewer;
use crate::areas::{ALL, CautionsOver, PANELS};
use crate::controls::later::Later;
use crate::model::ids::AreaId;
use crate::services::import::Importer;
use crate::services::render::program::Program;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::viewing::Viewing;
use crate::words;
use dappledome::picture::view::Light;
use leptos::prelude::*;

/// The page; its workers run the program.
#[component]
pub fn App(
    /// The compiled program.
    program: Program,
) -> impl IntoView {
    contexts::provide(program);
    surroundings::keep();
    let (nav, viewing) = (expect_context::<Nav>(), expect_context::<Viewing>());
    let announcer = expect_context::<Announcer>();
    let area = Memo::new(move |_| nav.area.get());
    let shown = move || ALL.iter().find(|one| one.id == area.get());
    let beside = move || shown().and_then(|area| area.beside).map(|view| view());
    view! {
        <main
            class="page"
            class:on-shelf=move || nav.is_on(AreaId::SHELF)
            class:lit=move || viewing.light.get() == Light::Within
            class:flat=move || viewing.flat()
            class:with-slip-below=move || nav.panel.get().is_some()
        >
            <Later>
                <Show when=move || !nav.is_on(AreaId::CUSTOMER)>
                    <a class="skip" href=format!("#{}", keys::RECIPE)>{words::TO_RECIPE}</a>
                    <a class="skip" href=format!("#{}", keys::PIECE)>{words::TO_PIECE}</a>
                </Show>
                <Later>
                    <Sheet beside=beside />
                </Later>
                {move || shown().map(|area| (area.view)())}
                <Viewer areas=&ALL panels=&PANELS />
                <CautionsOver />
                <Later>
                    <PrintedTicket />
                </Later>
                <FileField />
                <p class="unseen" role="status">{move || announcer.said()}</p>
            </Later>
        </main>
    }
}

/// The field through which the browser lets a file be chosen.
#[component]
fn FileField() -> impl IntoView {
    let importer = expect_context::<Importer>();
    view! {
        <input
            node_ref=importer.field
            class="unseen"
            type="file"
            tabindex="-1"
            aria-hidden="true"
            accept=".json,.png,application/json,image/png"
            on:change=move |_| importer.take_chosen()
        />
    }
}
