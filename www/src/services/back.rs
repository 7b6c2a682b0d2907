//! The browser's *Back* goes back through the areas and panels that were opened, and only then leaves the page. For each of
//! them the browser's history has an entry of ours, which notes how many lie open there.

use crate::dom::window::listen;
use crate::state::nav::Nav;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsValue;
use web_sys::{History, PopStateEvent};

/// Keeps the browser's history as deep as what lies open, as long as the present owner lives.
pub fn keep(nav: Nav) {
    // After a reload nothing lies open, whatever the entry noted.
    note(0);
    let noted = StoredValue::new(0);
    Effect::new(move || {
        let (depth, before) = (nav.depth.get(), noted.get_value());
        noted.set_value(depth);
        if depth > before {
            (before + 1..=depth).for_each(add);
        } else if depth < before {
            go(depth, before);
        }
    });
    listen(ev::popstate, move |event| {
        let open = nav.depth.get_untracked();
        // An entry without a note is new: a place on the page was gone to.
        let Some(there) = noted_in(&event) else { return note(open) };
        noted.set_value(there);
        if there > open {
            // What was closed is not opened again by going forward.
            noted.set_value(open);
            go(open, there);
        }
        (there..open).for_each(|_| nav.step_back());
    });
}

fn history() -> Option<History> {
    window().history().ok()
}

/// Notes in the present entry how many lie open.
fn note(depth: usize) {
    if let Some(history) = history() {
        // A browser that refuses only leaves *Back* as it is.
        let _ = history.replace_state(&JsValue::from(depth as u32), "");
    }
}

/// Adds an entry at which so many lie open.
fn add(depth: usize) {
    if let Some(history) = history() {
        // As above.
        let _ = history.push_state(&JsValue::from(depth as u32), "");
    }
}

/// Goes from the entry where so many lay open to that where so many lie.
fn go(to: usize, from: usize) {
    if let Some(history) = history() {
        // As above.
        let _ = history.go_with_delta(to as i32 - from as i32);
    }
}

fn noted_in(event: &PopStateEvent) -> Option<usize> {
    event.state().as_f64().map(|depth| depth as usize)
}
