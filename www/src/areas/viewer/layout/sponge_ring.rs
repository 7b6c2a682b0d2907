//! The outline of the sponge under the pointer.

use super::state::HandLayout;
use crate::areas::viewer::seen::percent;
use leptos::prelude::*;

/// The outline.
#[component]
pub fn SpongeRing() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let middle = move || layout.sponging().map_or((0.5, 0.5), |sponge| layout.map().seen(sponge.at));
    let width = move || layout.sponging().map_or(0.0, |sponge| sponge.width as f32 / layout.map().side);
    view! {
        <span
            class="sponge-ring"
            aria-hidden="true"
            class:hidden=move || layout.sponging().is_none()
            class:pressed=move || layout.drag.read().is_some()
            style:left=move || percent(middle().0)
            style:top=move || percent(middle().1)
            style:width=move || percent(width())
        ></span>
    }
}
