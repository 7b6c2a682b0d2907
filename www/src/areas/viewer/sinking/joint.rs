//! The joint before the dome: how long the slump takes, and a needle across the line to watch it by.

use super::gesture::Gesture;
use super::thumb::SinkThumb;
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use dappledome::picture::view::Stage;
use leptos::prelude::*;

/// The joint.
#[component]
pub fn SlumpJoint() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let gesture = Gesture::new();
    let known = Memo::new(move |_| sinking.course().is_some());
    // Where it is not known, the slip says why.
    let moment = move || match known.get() {
        true => words::moment(sinking.minutes(), sinking.heat(), preferences.units.get()),
        false => words::UNKNOWN.into(),
    };
    view! {
        <li class="joint sink-joint">
            <Show when=move || known.get()>
                <div
                    class="sink-way"
                    on:pointerdown=move |event| gesture.grip(&event)
                    on:pointermove=move |event| gesture.pull(&event)
                    on:pointerup=move |_| gesture.let_go()
                    on:pointercancel=move |_| gesture.let_go()
                >
                    <SinkThumb class="sink-thumb" />
                </div>
            </Show>
            <button
                class="sink-word"
                aria-label=move || words::watch_it_sink(&moment())
                aria-expanded=move || sinking.is_watched().to_string()
                on:click=move |_| sinking.toggle()
            >
                <span class="joint-name">{words::joint(Stage::Fused)}</span>
                <b>{moment}</b>
            </button>
        </li>
    }
}
