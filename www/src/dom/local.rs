//! What the browser keeps of short things, unless it is forbidden.

use leptos::prelude::window;
use web_sys::Storage;

/// What this browser keeps.
pub fn of_browser() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

/// What this tab keeps until it is closed.
pub fn of_tab() -> Option<Storage> {
    window().session_storage().ok().flatten()
}

/// What is kept under a name; empty if nothing is.
pub fn kept(name: &str) -> String {
    of_browser().and_then(|storage| storage.get_item(name).ok().flatten()).unwrap_or_default()
}

/// The names under which something is kept.
pub fn names() -> Vec<String> {
    let Some(storage) = of_browser() else { return Vec::new() };
    let count = storage.length().unwrap_or(0);
    (0..count).filter_map(|at| storage.key(at).ok().flatten()).collect()
}

/// Keeps nothing under a name any more.
pub fn forget(name: &str) {
    if let Some(storage) = of_browser() {
        // What stays is asked for once more.
        let _ = storage.remove_item(name);
    }
}

/// Keeps something under a name.
pub fn keep(name: &str, value: &str) {
    if let Some(storage) = of_browser() {
        // Where nothing can be kept it holds for this visit.
        let _ = storage.set_item(name, value);
    }
}
