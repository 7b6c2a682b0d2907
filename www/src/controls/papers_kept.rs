//! What there is to say of how orders, the bench and the log are kept: nothing while all is well.

use crate::model::records::SaveState;
use crate::services::backup::Backups;
use crate::state::saving::Saving;
use crate::words;
use leptos::prelude::*;

/// That they are not kept, and the word that backs everything up.
pub fn papers_kept() -> AnyView {
    let (saving, backups) = (expect_context::<Saving>(), expect_context::<Backups>());
    let said = RwSignal::new(String::new());
    let back_up = move |_| backups.back_up(move |told| drop(said.try_set(told)));
    (move || {
        let SaveState::Not(fault) = saving.papers.get() else { return None };
        Some(view! {
            <p class="log-count" role="alert">
                {words::not_kept(fault)}
                " "
                <button class="word" on:click=back_up>{words::BACK_UP}</button>
                " "
                {move || said.get()}
            </p>
        })
    })
    .into_any()
}
