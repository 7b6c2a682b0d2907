//! Another tab changed the same piece: which one is to be kept.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::dom::clock;
use crate::model::ids::PanelId;
use crate::model::records::SaveState;
use crate::services::autosave::Autosave;
use crate::state::saving::Saving;
use crate::words;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::CONFLICT, word: PanelWord::None, view: || view! { <Conflict /> }.into_any() };

/// The question which one is to be kept.
#[component]
fn Conflict() -> impl IntoView {
    let (saving, autosave) = (expect_context::<Saving>(), expect_context::<Autosave>());
    // A conflict that has gone meanwhile is still the one that is asked about.
    let time = Memo::new(move |last: Option<&Option<f64>>| match saving.state.get() {
        SaveState::Conflict(time) => Some(time),
        _ => last.copied().flatten(),
    });
    let changed = move || time.get().map(|time| words::changed_elsewhere(&clock::local(time)));
    view! {
        <div class="slip" role="alert">
            <p>
                <b>{changed}</b>
                " "
                {words::CONFLICT_HELP}
            </p>
            <div class="buttons">
                <button class="button main" on:click=move |_| autosave.take_that_one()>
                    {words::TAKE_THAT_ONE}
                </button>
                <button class="button" on:click=move |_| autosave.keep_both()>{words::KEEP_BOTH}</button>
            </div>
        </div>
    }
}
