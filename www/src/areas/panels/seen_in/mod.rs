//! *Seen in*: other lights and other eyes, and which colors of the piece some eyes take for each other.

mod slip;

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::part::{Draws, part};
use crate::model::ids::PanelId;
use crate::words;
use leptos::wasm_split::wasm_split;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::SEEN_IN,
    word: PanelWord::WhereNarrow(words::SEEN_IN),
    view: || part(|| Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(slip::seen_in)
}
