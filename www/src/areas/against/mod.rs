//! A fired piece against its forecast: color by color, place by place, or one wiped over the other; and what it teaches.

mod area;
mod discs;
mod marked;
mod rows;
mod state;
mod teach;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::AGAINST, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes with the desk that compares.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(area::against_area)
}
