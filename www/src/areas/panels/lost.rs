//! Pieces that were kept in this browser are not there any more.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::services::autosave::Autosave;
use crate::services::import::Importer;
use crate::state::saving::Saving;
use crate::words;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::LOST, word: PanelWord::None, view: || view! { <Lost /> }.into_any() };

/// That pieces are missing, and the way to bring them back.
#[component]
fn Lost() -> impl IntoView {
    let (saving, autosave) = (expect_context::<Saving>(), expect_context::<Autosave>());
    let importer = expect_context::<Importer>();
    view! {
        <div class="slip" role="alert">
            <p>
                <b>{move || words::lost(saving.missing.read().len())}</b>
                " "
                {words::LOST_MORE}
            </p>
            <div class="buttons">
                <button class="button main" on:click=move |_| importer.choose()>{words::BRING_BACK_UP}</button>
                <button class="button" on:click=move |_| autosave.leave_missing()>{words::LEAVE_IT}</button>
            </div>
        </div>
    }
}
