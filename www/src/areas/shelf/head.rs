//! The shelf's title, its search, and its words.

use super::state::ShelfState;
use crate::controls::cautions::CautionsWord;
use crate::controls::search::Search;
use crate::services::backup::Backups;
use crate::services::import::Importer;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The head of the shelf.
#[component]
pub fn ShelfHead() -> impl IntoView {
    let (nav, shelf) = (expect_context::<Nav>(), expect_context::<ShelfState>());
    let saving = shelf.saving;
    let (backups, importer) = (expect_context::<Backups>(), expect_context::<Importer>());
    let back_up = move |_| backups.back_up(move |said| saving.note.set(said));
    // The arrow down goes on to the pieces.
    let go_down = move |event: KeyboardEvent| {
        if event.key() == "ArrowDown" {
            shelf.pieces.focus_stop();
            event.prevent_default();
        }
    };
    view! {
        <div class="shelf-head">
            <h2 class="shelf-title">{words::SHELF}</h2>
            <Search
                name=words::SEARCH
                look_for=Callback::new(move |text: String| shelf.look_for(&text))
                on:keydown=go_down
            />
            <span class="gap"></span>
            <button class="table-word" on:click=back_up>{words::BACK_UP_ALL}</button>
            <button class="table-word" on:click=move |_| importer.choose()>{words::BRING_BACK_UP}</button>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| nav.close_area()>{words::CLOSE_SHELF}</button>
        </div>
    }
}
