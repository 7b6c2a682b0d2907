//! The table's bottom line: the light and the seed.

use super::seed::SeedGroup;
use crate::state::viewing::{LIGHTS, Viewing};
use crate::words;
use leptos::prelude::*;

/// The line.
#[component]
pub fn BottomLine() -> impl IntoView {
    let viewing = expect_context::<Viewing>();
    let lights = LIGHTS.into_iter().map(|light| {
        view! {
            <button
                class="table-word"
                aria-pressed=move || (viewing.light.get() == light).to_string()
                on:click=move |_| viewing.light.set(light)
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
                {move || words::light(viewing.light.get())}
            </button>
            <SeedGroup />
        </div>
    }
}
