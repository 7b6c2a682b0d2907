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
use crate::model::ids::AreaId;
use crate::words;
use leptos::prelude::*;

/// The paper.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::PAPER,
    word: Some(words::PAPER),
    view: || view! { <area::PaperArea /> }.into_any(),
    beside: None,
};

/// The paper of the open order; the order opens it.
pub const ORDER_AREA: AreaInfo = AreaInfo {
    id: AreaId::ORDER_PAPER,
    word: None,
    view: || view! { <order::OrderPaperArea /> }.into_any(),
    beside: None,
};
