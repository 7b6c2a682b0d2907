//! What the log says to do next time, on top of the recipe until it is laid aside.

use crate::model::ids::AreaId;
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The note.
pub fn next_time() -> AnyView {
    let (log, nav) = (expect_context::<Log>(), expect_context::<Nav>());
    let piece = expect_context::<Workpiece>();
    let aside = RwSignal::new(String::new());
    (move || {
        let title = piece.recipe.read().title.clone();
        let note = log.next_time(piece.id.get(), &title)?;
        if *aside.read() == note {
            return None;
        }
        let said = note.clone();
        Some(view! {
            <div class="notice note next-time" role="note">
                <p>
                    <b>{words::NEXT_TIME_SAID}</b>
                    " "
                    {note}
                </p>
                <div class="buttons">
                    <button class="button" on:click=move |_| nav.open_area(AreaId::LOG)>{words::LOG}</button>
                    <button class="button" on:click=move |_| aside.set(said.clone())>{words::LEAVE_IT}</button>
                </div>
            </div>
        })
    })
    .into_any()
}
