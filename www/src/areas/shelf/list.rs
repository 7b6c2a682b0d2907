//! The maker's pieces.

use super::item::ShelfItem;
use super::roving::DomeKey;
use super::state::ShelfState;
use crate::words;
use leptos::prelude::*;

/// The pieces that are found, in what the rows of the list are measured by.
#[component]
pub fn Pieces() -> impl IntoView {
    let shelf = expect_context::<ShelfState>();
    view! {
        <div class="pieces-place">
            <ul class="pieces" role="list" aria-label=words::SHELF aria-description=words::SHELF_KEYS>
                <For each=move || shelf.on_page() key=DomeKey::of_card let:card>
                    <ShelfItem card />
                </For>
            </ul>
        </div>
    }
}
