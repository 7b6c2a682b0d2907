//! The table's bottom line: the light and the seed. The chosen light, pressed again, opens what it is seen in.

use super::seed::SeedGroup;
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::viewing::{LIGHTS, Viewing};
use crate::words;
use leptos::prelude::*;

/// The line.
#[component]
pub fn BottomLine() -> impl IntoView {
    let (viewing, nav) = (expect_context::<Viewing>(), expect_context::<Nav>());
    let press = move |light| {
        if viewing.light.get_untracked() == light {
            nav.toggle_panel(PanelId::SEEN_IN);
        } else {
            viewing.light.set(light);
        }
    };
    let opens = move |light| {
        let chosen = viewing.light.get() == light;
        chosen.then(|| nav.has_panel(PanelId::SEEN_IN).to_string())
    };
    let lights = LIGHTS.into_iter().map(|light| {
        view! {
            <button
                class="table-word"
                aria-pressed=move || (viewing.light.get() == light).to_string()
                aria-expanded=move || opens(light)
                title=move || (viewing.light.get() == light).then_some(words::SEEN_IN_OTHERS)
                on:click=move |_| press(light)
            >
                {words::light(light)}
            </button>
        }
    });
    view! {
        <div class="bottom-line">
            <div class="lights" role="group" aria-label=words::LIGHT>
                {lights.collect_view()}
            </div>
            <button class="table-word next-light" on:click=move |_| viewing.next_light()>
                {move || words::light_seen_in(viewing.light.get(), viewing.illuminant())}
            </button>
            <SeedGroup />
        </div>
    }
}
