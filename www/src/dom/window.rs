//! Events of the whole window.

use leptos::ev::{self, EventDescriptor};
use leptos::prelude::{document, on_cleanup, window, window_event_listener};
use web_sys::VisibilityState;

/// Style sheets call it a phone below this, px.
const NARROW: f64 = 599.0;

/// Hears an event of the whole window for as long as the present owner lives.
pub fn listen<E: EventDescriptor + 'static>(event: E, hear: impl Fn(E::EventType) + 'static)
where
    E::EventType: wasm_bindgen::JsCast,
{
    let heard = window_event_listener(event, hear);
    on_cleanup(move || heard.remove());
}

/// Has something done whenever the page goes out of sight: it may be ended without another word. As long as the present owner lives.
pub fn before_the_end(act: impl Fn() + Copy + 'static) {
    listen(ev::pagehide, move |_| act());
    listen(ev::visibilitychange, move |_| {
        if document().visibility_state() == VisibilityState::Hidden {
            act();
        }
    });
}

/// Whether the window is as narrow as a phone.
pub fn is_narrow() -> bool {
    let width = window().inner_width().ok().and_then(|width| width.as_f64());
    width.is_some_and(|width| width < NARROW)
}
