//! The large option, which lights up when it is touched.

use super::state::Showing;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::pictures::Pictures;
use crate::words;
use dappledome::picture::view::Light;
use leptos::prelude::*;

/// The large option.
#[component]
pub fn LargeGlass(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    look_ahead(showing, expect_context());
    let slot = Memo::new(move |_| showing.seed().map(|seed| PictureSlot::Option(seed, showing.light())));
    view! {
        <button
            class="customer-glass"
            aria-label=move || words::option_picture(&showing.letter(), showing.lit.get())
            aria-pressed=move || showing.lit.get().to_string()
            on:click=move |_| showing.toggle_light()
        >
            {move || slot.get().map(|slot| view! { <Picture of=slot /> })}
        </button>
    }
}

/// Has every option drawn by day and then lit, so that it lights up at once.
fn look_ahead(showing: Showing, pictures: Pictures) {
    Effect::new(move || {
        let kept = showing.kept.get();
        for light in [Light::Day, Light::Within] {
            kept.iter().for_each(|seed| pictures.look(PictureSlot::Option(*seed, light)));
        }
    });
}
