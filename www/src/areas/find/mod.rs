//! A color that is looked for among the jars, for a coat: the nearest ways to it, each tried in the piece before it is put there.

mod area;
mod color;
mod how;
mod ringed;
mod rows;
mod state;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::FIND, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes with the desk that looks for it.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(area::find_area)
}
