//! The field of a search.

use leptos::prelude::*;

/// The field of a search.
#[component]
pub fn Search(
    /// What is searched.
    name: &'static str,
    /// Takes what is looked for, at every letter.
    look_for: Callback<String>,
) -> impl IntoView {
    view! {
        <input
            class="shelf-search"
            type="search"
            placeholder=name
            aria-label=name
            autocomplete="off"
            spellcheck="false"
            on:input=move |event| look_for.run(event_target_value(&event))
        />
    }
}
