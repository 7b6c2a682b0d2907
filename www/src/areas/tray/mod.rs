//! The tray: sisters of the piece side by side, kept, put away, compared, and chosen from.

mod area;
mod cell;
mod columns;
mod compare;
mod grid;
mod keys;
mod panel;
mod picked_set;
mod picking;
mod pointed;
mod shortlist;
mod state;
mod wipe;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The tray.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::TRAY,
    word: None,
    view: || part(|| Box::pin(door())),
    beside: Some(|| view! { <panel::PanelInSight /> }.into_any()),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <area::TrayArea /> }.into_any())
}
