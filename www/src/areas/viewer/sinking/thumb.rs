//! The needle itself, on the rule and on the joint.

use super::gesture::Gesture;
use crate::areas::viewer::seen::percent;
use crate::model::sinking::touching;
use crate::state::preferences::Preferences;
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
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let gesture = Gesture(sinking);
    let minute = |minutes: f64| fixed(minutes, 1);
    let end = move |of: fn((f64, f64)) -> f64| sinking.course.get().map(|course| minute(of(course.span())));
    let share = move || sinking.course.get().map_or(0.0, |course| course.share(sinking.minutes()));
    let said = move || {
        let moment = sinking.moment.get()?;
        let units = preferences.units.get();
        let when = words::moment(sinking.minutes(), sinking.heat(), units);
        Some(words::sunk_said(&when, moment.depth(), touching(&moment), units))
    };
    view! {
        <span
            class=class
            role="slider"
            tabindex="0"
            aria-label=words::TIME_OF_SLUMP
            aria-valuemin=move || end(|span| span.0)
            aria-valuemax=move || end(|span| span.1)
            aria-valuenow=move || minute(sinking.minutes())
            aria-valuetext=said
            style=("--at", move || percent(share() as f32))
            on:keydown=move |event| gesture.press(&event)
        ></span>
    }
}
