//! The screen turned to the customer: one option large, the others small, and a button to choose.

mod area;
mod choosing;
mod large;
mod others;
mod state;

use super::info::AreaInfo;
use crate::model::ids::AreaId;
use leptos::prelude::*;

/// The screen.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::CUSTOMER,
    word: None,
    view: || view! { <area::CustomerArea /> }.into_any(),
    beside: None,
};
