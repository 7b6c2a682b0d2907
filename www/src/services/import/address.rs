//! A piece in the page's address.

use super::intake::Intake;
use super::sort::{self, Arrived};
use dappledome::recipe::link;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Takes up the piece that the page's address holds, if it holds one. Takes the contexts of the page.
pub fn open() {
    open_into(Intake::of_contexts());
}

/// The same, and takes it out of the address: else every reload would make another copy.
pub fn open_into(intake: Intake) {
    let location = window().location();
    let Some(found) = location.hash().ok().and_then(|fragment| link::read(&fragment)) else { return };
    let [path, search] = [location.pathname(), location.search()].map(Result::unwrap_or_default);
    if let Ok(history) = window().history() {
        // What stays in the address does no harm.
        let noted = history.state().unwrap_or(JsValue::NULL);
        let _ = history.replace_state_with_url(&noted, "", Some(&format!("{path}{search}")));
    }
    match sort::in_link(found) {
        Arrived::Piece(piece, origin) => intake.take_up(&piece, origin),
        Arrived::Refused(refused) => intake.refuse(refused),
        Arrived::Backup(_) | Arrived::Glasses(_) | Arrived::Order(_) => {}
    }
}
