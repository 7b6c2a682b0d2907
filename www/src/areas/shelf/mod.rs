//! The shelf: the maker's pieces as small domes, the newest first, and the recipes to start from.

mod area;
mod contents;
mod deeds;
mod dome;
mod glasses;
mod head;
mod item;
mod jumps;
mod kiln;
mod list;
mod molds;
mod notes;
mod orders;
mod roving;
mod search;
mod starts;
mod state;
mod stock;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::SHELF,
    word: Some(words::SHELF),
    view: || part(|| Box::pin(door())),
    beside: None,
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <area::Shelf /> }.into_any())
}
