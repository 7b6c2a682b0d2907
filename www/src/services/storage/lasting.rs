//! Whether the browser has promised not to clear what it keeps by itself when room is short.

use crate::dom::local;
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;

/// The browser has been asked.
const ASKED: &str = "dappledome.asked";

/// What came of asking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Promise {
    /// It was not asked yet, or does not know what is asked.
    NotAsked,
    /// It keeps everything until the maker clears it.
    Given,
    /// It may clear everything when room is short.
    Refused,
}

/// Asks the browser, once: some ask the maker in turn.
pub fn ask_to_last() {
    let Some(storage) = local::of_browser() else { return };
    if storage.get_item(ASKED).ok().flatten().is_some() || storage.set_item(ASKED, "yes").is_err() {
        return;
    }
    if let Ok(asked) = window().navigator().storage().persist() {
        spawn_local(async move {
            // The answer is looked up where it is said.
            let _ = JsFuture::from(asked).await;
        });
    }
}

/// What the browser has promised.
pub async fn promised() -> Promise {
    let Ok(promise) = window().navigator().storage().persisted() else { return Promise::NotAsked };
    match JsFuture::from(promise).await.ok().and_then(|promised| promised.as_bool()) {
        Some(true) => Promise::Given,
        Some(false) if !local::kept(ASKED).is_empty() => Promise::Refused,
        _ => Promise::NotAsked,
    }
}
