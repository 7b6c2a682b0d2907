//! What the keyboard takes hold of: a button over each thing.

use super::changes::{move_thing, take_off};
use super::dragging::put_back;
use super::knob::Knob;
use super::label::HandLabel;
use super::state::HandLayout;
use super::things::Which;
use crate::areas::viewer::arrows::arrow;
use crate::areas::viewer::seen::percent;
use crate::words;
use leptos::html;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// Handles, knob and label.
#[component]
pub fn Handles() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let all = Memo::new(move |_| layout.things.read().iter().map(|thing| thing.which).collect::<Vec<_>>());
    view! {
        <div class="hand-handles">
            <For each=move || all.get() key=Which::key let:which>
                <Handle which />
            </For>
            <Show when=move || layout.coat().is_some()>
                <Knob />
            </Show>
            <HandLabel />
            <p class="unseen" id="hand-keys">
                {move || layout.units.read().text(words::HAND_KEYS)}
            </p>
        </div>
    }
}

/// The button over a thing.
#[component]
fn Handle(
    /// The thing.
    which: Which,
) -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let seen = layout.seen(move || layout.of_thing(which, |thing| thing.middle).unwrap_or_default());
    let handle = NodeRef::<html::Button>::new();
    handle.on_load(move |handle| {
        if layout.fresh.get_value() == Some(which) {
            layout.fresh.set_value(None);
            // It is selected without the focus just as well.
            let _ = handle.focus();
        }
    });
    let leave = move || {
        if layout.focused.get_untracked() == Some(which) {
            layout.focused.set(None);
        }
    };
    view! {
        <button
            node_ref=handle
            class="hand-handle"
            aria-describedby="hand-keys"
            aria-label=move || layout.of_thing(which, |thing| thing.name.clone()).unwrap_or_default()
            style:left=move || percent(seen.get().0)
            style:top=move || percent(seen.get().1)
            on:focus=move |_| layout.focused.set(Some(which))
            on:blur=move |_| leave()
            on:keydown=move |event| {
                if key(layout, which, &event) {
                    event.prevent_default();
                    event.stop_propagation();
                }
            }
        ></button>
    }
}

/// A key on a handle; whether it means something.
fn key(layout: HandLayout, which: Which, event: &KeyboardEvent) -> bool {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return false;
    }
    match (event.key().as_str(), arrow(event, 1.0, 0.2)) {
        (_, Some(way)) => shift(layout, which, way),
        ("Delete" | "Backspace", _) => remove(layout, which),
        // A button's own keys, which would reach the glass.
        ("Enter" | " ", _) => {}
        ("Escape", _) => return put_back(layout),
        _ => return false,
    }
    true
}

/// Moves a thing by a way as it is seen, mm.
fn shift(layout: HandLayout, which: Which, way: [f32; 2]) {
    let Some(middle) = untrack(|| layout.of_thing(which, |thing| thing.middle)) else { return };
    let by = layout.map_now().way(way).map(f64::from);
    let coat = untrack(|| layout.coat());
    layout.piece.edit(&words::move_step(&untrack(|| layout.powder())), |recipe| {
        // What has no room any more stays where it is.
        let _ = move_thing(recipe, coat, which, middle, by);
    });
}

/// Takes a thing off.
fn remove(layout: HandLayout, which: Which) {
    let coat = untrack(|| layout.coat());
    layout.piece.edit(&words::off_step(&untrack(|| layout.powder())), |recipe| {
        // What has no room to be noted stays.
        let _ = take_off(recipe, coat, which);
    });
}
