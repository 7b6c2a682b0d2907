//! A file that could not be opened, and why.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::services::import::Importer;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::words;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::REFUSED, word: PanelWord::None, view: || view! { <Refused /> }.into_any() };

/// A file that could not be opened.
#[component]
fn Refused() -> impl IntoView {
    let (nav, preferences) = (expect_context::<Nav>(), expect_context::<Preferences>());
    let importer = expect_context::<Importer>();
    view! {
        <div class="slip" role="alert">
            <p>
                <b class="accent">{move || nav.refusal.get().what}</b>
                " "
                {move || preferences.text(&nav.refusal.read().why)}
            </p>
            <div class="buttons">
                <button class="button main" on:click=move |_| importer.choose()>{words::CHOOSE_ANOTHER}</button>
                <button class="button" on:click=move |_| nav.close_panel()>{words::LEAVE_IT}</button>
            </div>
        </div>
    }
}
