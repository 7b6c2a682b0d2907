//! What the shelf has to say, and what can be put back.

use super::state::ShelfState;
use crate::model::ids::PieceId;
use crate::model::records::Deleted;
use crate::words;
use leptos::prelude::*;

/// What the shelf has to say.
#[component]
pub fn ShelfNotes() -> impl IntoView {
    let shelf = expect_context::<ShelfState>();
    let saving = shelf.saving;
    let deleted = move || lines(&saving.deleted.read());
    view! {
        <div class="shelf-notes">
            <p class="shelf-note" role="status">{move || saving.note.get()}</p>
            <ul class="gone">
                <For each=deleted key=|(at, id, _)| (*at, *id) let((_, id, title))>
                    <li>
                        {words::taken_away(&title)}
                        " "
                        <button class="word" on:click=move |_| shelf.put_back(id)>{words::PUT_BACK}</button>
                    </li>
                </For>
            </ul>
        </div>
    }
}

/// What was taken away, the last one first: when it was, in their order, for one piece can be taken away more than once;
/// which piece; and its name.
fn lines(deleted: &[Deleted]) -> Vec<(usize, PieceId, String)> {
    deleted.iter().enumerate().rev().map(|(at, one)| (at, one.id, one.title.clone())).collect()
}
