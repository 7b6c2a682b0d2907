//! Paper: the option sheet, as it will be printed, with the ways to print and save it.

mod area;
mod drawing;
mod layout;
mod page;
mod pen;
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
