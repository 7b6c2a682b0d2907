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
use crate::model::ids::AreaId;
use crate::words;
use leptos::prelude::*;

/// The area.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::SHELF,
    word: Some(words::SHELF),
    view: || view! { <area::Shelf /> }.into_any(),
    beside: None,
};
