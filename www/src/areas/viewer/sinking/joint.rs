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
    let gesture = Gesture(sinking);
    let moment = move || words::moment(sinking.minutes(), sinking.heat(), preferences.units.get());
    let known = Memo::new(move |_| sinking.course.read().is_some());
    view! {
        <li class="joint" class:sink-joint=move || known.get()>
            <Show
                when=move || known.get()
                fallback=|| view! { <span aria-hidden="true">{words::joint(Stage::Fused)}</span> }
            >
                <div
                    class="sink-way"
                    on:pointerdown=move |event| gesture.grip(&event)
                    on:pointermove=move |event| gesture.pull(&event)
                    on:pointerup=move |_| gesture.let_go()
                    on:pointercancel=move |_| gesture.let_go()
                >
                    <SinkThumb class="sink-thumb" />
                </div>
                <button
                    class="sink-word"
                    aria-label=move || words::watch_it_sink(&moment())
                    aria-expanded=move || sinking.is_watched().to_string()
                    on:click=move |_| sinking.toggle()
                >
                    <span class="joint-name">{words::joint(Stage::Fused)}</span>
                    <b>{moment}</b>
                </button>
            </Show>
        </li>
    }
}
