//! The log: what became of the firings, and what to do next time.

mod area;
mod entry;
mod list;
mod offers;
mod outcomes;
mod photo;
mod search;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::LOG, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes when it is first wanted.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(area::log_area)
}
