//! A newer version of the page is ready.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;
use web_sys::Event;

/// Sent to the window when the maker wants the newer version at once; the script that fetched it hears it.
const USE_IT: &str = "use-new-version";

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::NEW_VERSION,
    word: PanelWord::None,
    view: || view! { <NewVersion /> }.into_any(),
};

/// The offer of a newer version.
#[component]
fn NewVersion() -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <div class="slip">
            <p>
                <b>{words::NEW_VERSION}</b>
                " "
                {words::NEW_VERSION_MORE}
            </p>
            <div class="buttons">
                <button class="button main" on:click=|_| use_it()>{words::USE_IT_NOW}</button>
                <button class="button" on:click=move |_| nav.leave_offered()>{words::NEXT_TIME}</button>
            </div>
        </div>
    }
}

fn use_it() {
    // An event of a plain name can always be made and sent.
    let _ = Event::new(USE_IT).and_then(|event| window().dispatch_event(&event));
}
