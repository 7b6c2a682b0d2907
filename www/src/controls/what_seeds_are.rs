//! What a seed is, until the first other one is taken.

use crate::state::preferences::Preferences;
use crate::words;
use leptos::prelude::*;

/// The words.
#[component]
pub fn WhatSeedsAre() -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    view! {
        <Show when=move || !preferences.knows_seeds.get()>
            <p class="what-seeds-are">{words::WHAT_SEEDS_ARE}</p>
        </Show>
    }
}
