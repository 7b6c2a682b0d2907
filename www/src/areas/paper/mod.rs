//! Paper: the option sheet and the sheets of an order, as they will be printed, with the ways to print and save them.

mod area;
mod drawing;
mod drawn;
mod layout;
mod order;
mod page;
mod pen;
mod print;
mod saving;
mod types;

use super::info::AreaInfo;
use crate::controls::part::{Draws, part};
use crate::model::ids::AreaId;
use crate::services::render::desk::Desk;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The paper.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::PAPER,
    word: Some(words::PAPER),
    view: || part(|| Box::pin(door())),
    beside: None,
};

/// The paper of the open order; the order opens it.
pub const ORDER_AREA: AreaInfo =
    AreaInfo { id: AreaId::ORDER_PAPER, word: None, view: || part(|| Box::pin(order_door())), beside: None };

/// What draws it, which comes when it is first wanted.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <area::PaperArea /> }.into_any())
}

/// What draws that of an order.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn order_door() -> Draws {
    Ok(|| {
        expect_context::<Desk>().open();
        view! { <order::OrderPaperArea /> }.into_any()
    })
}
