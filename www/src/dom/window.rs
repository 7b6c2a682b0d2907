//! Events of the whole window.

use leptos::ev::EventDescriptor;
use leptos::prelude::{on_cleanup, window_event_listener};

/// Hears an event of the whole window for as long as the present owner lives.
pub fn listen<E: EventDescriptor + 'static>(event: E, hear: impl Fn(E::EventType) + 'static)
where
    E::EventType: wasm_bindgen::JsCast,
{
    let heard = window_event_listener(event, hear);
    on_cleanup(move || heard.remove());
}
