//! The word that keeps the screen on.

use super::state::OrderState;
use crate::dom::wake::Awake;
use crate::dom::window::listen;
use crate::words;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// The word, or that the browser cannot.
#[component]
pub fn KeepOn(
    /// The order.
    state: OrderState,
) -> impl IntoView {
    if !Awake::is_possible() {
        return view! { <span class="second">{words::CANNOT_KEEP_ON}</span> }.into_any();
    }
    let on = RwSignal::new(false);
    let held = StoredValue::new_local(None::<Awake>);
    let ask = move || {
        spawn_local(async move {
            let awake = Awake::ask().await;
            // The bench may have been laid aside meanwhile.
            if awake.is_none() && on.try_set(false).is_none() {
                state.said.set(Some(words::NOT_KEPT_ON.into()));
            }
            let _ = held.try_set_value(awake);
        });
    };
    let toggle = move |_| {
        on.update(|on| *on = !*on);
        if on.get_untracked() { ask() } else { held.set_value(None) }
    };
    // A page that was hidden has lost it.
    listen(ev::visibilitychange, move |_| {
        if on.get_untracked() && !document().hidden() {
            ask();
        }
    });
    view! {
        <button class="table-word" aria-pressed=move || on.get().to_string() on:click=toggle>
            {words::KEEP_SCREEN_ON}
        </button>
    }
    .into_any()
}
