//! *How sure*: the piece shaded by how far its colors may be off, what that comes from, and the tile to fire.

mod rows;
mod slip;

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::part::{Draws, slip_part};
use crate::model::ids::PanelId;
use crate::words;
use leptos::wasm_split::wasm_split;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::HOW_SURE,
    word: PanelWord::None,
    view: || slip_part(words::HOW_SURE, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(slip::how_sure)
}
