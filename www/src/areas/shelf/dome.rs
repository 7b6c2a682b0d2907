//! The button that a piece or a recipe is taken up by.

use super::roving::{DomeKey, Roving, Spot};
use crate::words;
use leptos::prelude::*;

/// A dome in a list: one of them is reached by Tab, the others by arrows.
#[component]
pub fn Dome(
    /// Its list.
    roving: Roving,
    /// Which item of the list it is.
    key: DomeKey,
    /// Its place there.
    spot: Spot,
    /// Its name.
    title: String,
    /// Whether it lies on the table.
    #[prop(optional, into)]
    on_table: Signal<bool>,
    /// Takes it up.
    #[prop(into)]
    take_up: Callback<()>,
    children: Children,
) -> impl IntoView {
    view! {
        <button
            class="dome"
            node_ref=spot.dome
            tabindex=move || if roving.is_stop(key) { "0" } else { "-1" }
            title=words::named(&title)
            aria-current=move || on_table.get().then_some("true")
            on:click=move |_| take_up.run(())
        >
            {children()}
        </button>
    }
}
