//! What is written at once, because it is short: which piece lay on the table, and a change that a page going out of
//! sight has no time to keep otherwise.

use super::state::PieceId;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::Storage;

/// Which piece lay on the table.
const LAST: &str = "dappledome.last";
/// Begins the name of a change that was not kept; the piece's number follows.
const DRAFT: &str = "dappledome.unsaved.";
/// The browser has been asked not to clear our storage by itself.
const ASKED: &str = "dappledome.asked";

/// What the browser keeps of short things, unless it is forbidden.
pub fn of_browser() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

/// The piece that lay on the table last in this tab, or else in this browser.
pub fn last() -> Option<PieceId> {
    let of_tab = window().session_storage().ok().flatten();
    let found = [of_tab, of_browser()].into_iter().flatten();
    let mut numbers = found.filter_map(|storage| storage.get_item(LAST).ok().flatten()?.parse().ok());
    numbers.next().map(PieceId)
}

/// Remembers which piece lies on the table.
pub fn remember(id: PieceId) {
    let of_tab = window().session_storage().ok().flatten();
    for storage in [of_tab, of_browser()].into_iter().flatten() {
        // Without it the piece that was changed last lies there next time.
        let _ = storage.set_item(LAST, &id.0.to_string());
    }
}

/// Writes a change: the revision it was made on, and the piece.
pub fn write(id: PieceId, revision: Option<u32>, text: &str) {
    if let Some(storage) = of_browser() {
        let revision = revision.map_or_else(String::new, |revision| revision.to_string());
        // Where there is no room for it, saving it in the usual way may still do.
        let _ = storage.set_item(&format!("{DRAFT}{}", id.0), &format!("{revision} {text}"));
    }
}

/// Drops the change of a piece, because it is kept.
pub fn drop_one(id: PieceId) {
    if let Some(storage) = of_browser() {
        // One that stays is found to be kept when the page is opened next.
        let _ = storage.remove_item(&format!("{DRAFT}{}", id.0));
    }
}

/// All changes that were not kept.
pub fn all() -> Vec<(PieceId, Option<u32>, String)> {
    let Some(storage) = of_browser() else { return Vec::new() };
    let count = storage.length().unwrap_or(0);
    let names: Vec<String> = (0..count).filter_map(|at| storage.key(at).ok().flatten()).collect();
    let draft = |name: &String| {
        let id = name.strip_prefix(DRAFT)?.parse().ok()?;
        let written = storage.get_item(name).ok().flatten()?;
        let (revision, text) = written.split_once(' ')?;
        Some((PieceId(id), revision.parse().ok(), text.to_owned()))
    };
    names.iter().filter_map(draft).collect()
}

/// Asks the browser once not to clear our storage by itself when room is short.
pub fn ask_to_persist() {
    let Some(storage) = of_browser() else { return };
    if storage.get_item(ASKED).ok().flatten().is_some() || storage.set_item(ASKED, "yes").is_err() {
        return;
    }
    if let Ok(asked) = window().navigator().storage().persist() {
        spawn_local(async move {
            // Whatever the answer, there is nothing more that we could do.
            let _ = JsFuture::from(asked).await;
        });
    }
}
