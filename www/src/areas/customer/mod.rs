//! The screen turned to the customer: one option large, the others small, and a button to choose.

mod area;
mod choosing;
mod large;
mod others;
mod state;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The screen.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::CUSTOMER, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <area::CustomerArea /> }.into_any())
}
