//! The shelf's title, its search, and its words.

use super::state::ShelfState;
use crate::controls::cautions::CautionsWord;
use crate::services::backup::Backups;
use crate::services::import::Importer;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The head of the shelf.
#[component]
pub fn ShelfHead() -> impl IntoView {
    let nav = expect_context::<Nav>();
    let saving = expect_context::<ShelfState>().saving;
    let (backups, importer) = (expect_context::<Backups>(), expect_context::<Importer>());
    let back_up = move |_| backups.back_up(move |said| saving.note.set(said));
    view! {
        <div class="shelf-head">
            <h2 class="shelf-title">{words::SHELF}</h2>
            <Search />
            <span class="gap"></span>
            <button class="table-word" on:click=back_up>{words::BACK_UP_ALL}</button>
            <button class="table-word" on:click=move |_| importer.choose()>{words::BRING_BACK_UP}</button>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| nav.close_area()>{words::CLOSE_SHELF}</button>
        </div>
    }
}

/// The field of the search; the arrow down goes on to the pieces.
#[component]
fn Search() -> impl IntoView {
    let shelf = expect_context::<ShelfState>();
    let go_down = move |event: KeyboardEvent| {
        if event.key() == "ArrowDown" {
            shelf.pieces.focus_stop();
            event.prevent_default();
        }
    };
    view! {
        <input
            class="shelf-search"
            type="search"
            placeholder=words::SEARCH
            aria-label=words::SEARCH
            autocomplete="off"
            spellcheck="false"
            on:input=move |event| shelf.look_for(&event_target_value(&event))
            on:keydown=go_down
        />
    }
}
