//! The panel.

use super::section::Section;
use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::panel::PanelHead;
use crate::controls::part::{Draws, slip_part};
use crate::model::ids::PanelId;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::SAMPLE,
    word: PanelWord::None,
    view: || slip_part(words::CORE_SAMPLE, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <CoreSamplePanel /> }.into_any())
}

/// The place of the core sample and its layers.
#[component]
fn CoreSamplePanel() -> impl IntoView {
    let (results, preferences) = (expect_context::<Results>(), expect_context::<Preferences>());
    let place = move || {
        results.sample.with(|sample| {
            let place = |sample| words::sample_place(sample, preferences.units.get());
            sample.as_ref().map_or_else(String::new, |sample| place(&sample.sample))
        })
    };
    let layers = move || match results.sample.get() {
        Some(sample) => view! { <Section layers=sample.sample.layers /> }.into_any(),
        None => view! { <p class="aside">{words::TAKING_A_SAMPLE}</p> }.into_any(),
    };
    view! {
        <div class="slip sample">
            <PanelHead title=words::CORE_SAMPLE>
                <span class="sample-place">{place}</span>
            </PanelHead>
            {layers}
        </div>
    }
}
