//! The ring on the glass.

use crate::areas::viewer::seen::percent;
use crate::state::results::Results;
use dappledome::preview::Sampled;
use leptos::prelude::*;

/// The ring.
#[component]
pub fn SampleRing() -> impl IntoView {
    let sample = expect_context::<Results>().sample;
    let seen = move |of: fn(&Sampled) -> f32| percent(sample.read().as_ref().map_or(0.5, of));
    let far = move || sample.with(|sample| sample.as_ref().is_some_and(|sample| !sample.faces_the_eye));
    view! {
        <span
            class="sample-ring"
            aria-hidden="true"
            class:hidden=move || sample.read().is_none()
            class:far-side=far
            style:left=move || seen(|sample| sample.seen.0)
            style:top=move || seen(|sample| sample.seen.1)
        ></span>
    }
}
