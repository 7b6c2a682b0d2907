//! From a tile to a glass: what was sifted, on what, and which color it fired to.

mod area;
mod ladder;
mod on_photo;
mod photo;
mod state;
mod tiles;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::TILE, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(area::tile_area)
}
