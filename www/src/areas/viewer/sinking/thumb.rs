//! The needle itself, on the rule and on the joint.

use super::gesture::Gesture;
use crate::areas::viewer::seen::percent;
use crate::state::sinking::Sinking;
use crate::words;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// The needle: what moves along a line of time, and is moved by keys.
#[component]
pub fn SinkThumb(
    /// Its looks.
    class: &'static str,
) -> impl IntoView {
    let sinking = expect_context::<Sinking>();
    let gesture = Gesture::new();
    let minute = |minutes: f64| fixed(minutes, 1);
    let end = move |of: fn((f64, f64)) -> f64| sinking.course().map(|course| minute(of(course.span())));
    let share = move || sinking.course().map_or(0.0, |course| course.share(sinking.minutes()));
    view! {
        <span
            class=class
            role="slider"
            tabindex="0"
            aria-label=words::TIME_OF_SLUMP
            aria-valuemin=move || end(|span| span.0)
            aria-valuemax=move || end(|span| span.1)
            aria-valuenow=move || minute(sinking.minutes())
            aria-valuetext=move || gesture.said()
            style=("--at", move || percent(share() as f32))
            on:keydown=move |event| gesture.press(&event)
        ></span>
    }
}
