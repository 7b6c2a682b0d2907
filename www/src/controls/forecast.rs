//! That what is shown is a forecast; and what a seed is, until the first other one is taken.

use crate::state::preferences::Preferences;
use crate::words;
use leptos::prelude::*;

/// The words.
#[component]
pub fn Forecast() -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    view! {
        <span>
            {words::FORECAST}
            <Show when=move || !preferences.knows_seeds.get()>{words::WHAT_SEEDS_ARE}</Show>
        </span>
    }
}
