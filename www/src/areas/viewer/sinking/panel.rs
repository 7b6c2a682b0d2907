//! The slip.

use super::rule::SinkRule;
use super::section::MoldSection;
use super::stop::StopLine;
use super::table::SinkTable;
use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::panel::PanelHead;
use crate::controls::part::{Draws, slip_part};
use crate::model::ids::PanelId;
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The slip.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::SINKING,
    word: PanelWord::None,
    view: || slip_part(words::AS_IT_LIES, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <SinkingPanel /> }.into_any())
}

/// The section, the sink rule, and what can be done.
#[component]
fn SinkingPanel() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let known = Memo::new(move |_| sinking.course().is_some());
    let when =
        move || known.get().then(|| words::when(sinking.minutes(), sinking.heat(), preferences.units.get()));
    let why_not = move || sinking.trouble().map(|notice| preferences.text(&notice.to_string()));
    // What moves with the needle is said by the needle: to say all of it at every minute would be too much.
    view! {
        <div class="slip sinking" aria-live="off">
            <PanelHead title=words::AS_IT_LIES>
                <span class="sink-when">{when}</span>
            </PanelHead>
            <Show when=move || known.get() fallback=move || view! { <p class="sink-why">{why_not}</p> }>
                <MoldSection />
                <SinkRule />
                <StopLine />
                <SinkTable />
            </Show>
        </div>
    }
}
