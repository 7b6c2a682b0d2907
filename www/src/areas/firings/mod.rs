//! The firings: a program for each, with its chart and a table whose every number can be typed over.

mod area;
mod core;
mod course;
mod numbers;
mod printed;
mod program;
mod row;
mod start;
mod state;
mod table;

pub use printed::PrintedPrograms;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::FIRINGS, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws them, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <area::FiringsArea /> }.into_any())
}
