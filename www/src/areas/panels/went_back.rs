//! A newer version of the page did not open.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::WENT_BACK, word: PanelWord::None, view: || view! { <WentBack /> }.into_any() };

/// That this is the version before.
#[component]
fn WentBack() -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <div class="slip" role="alert">
            <p>
                <b>{words::WENT_BACK}</b>
                " "
                {words::WENT_BACK_MORE}
            </p>
            <div class="buttons">
                <button class="button main" on:click=move |_| nav.leave_offered()>{words::CLOSE}</button>
            </div>
        </div>
    }
}
