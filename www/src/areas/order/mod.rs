//! An order: the ticket pulled out. Each row of the recipe runs on into what is on hand, what to buy and the days it is made on.

mod area;
mod axis;
mod bench;
mod calendar;
mod costs;
mod cut;
mod drawing;
mod foot;
mod head;
mod hours;
mod loads;
mod pieces;
mod remedies;
mod rows;
mod screen;
mod state;
mod stems;
mod table;
mod today;
mod undo;
mod weigh;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use crate::services::render::desk::Desk;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The area.
pub const AREA: AreaInfo =
    AreaInfo { id: AreaId::ORDER, word: None, view: || part(|| Box::pin(door())), beside: None };

/// What draws it, which comes with the desk when the first order is opened.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| {
        expect_context::<Desk>().open();
        view! { <area::OrderArea /> }.into_any()
    })
}
