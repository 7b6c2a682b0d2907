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
use crate::model::ids::AreaId;
use leptos::prelude::*;

/// The area.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::ORDER,
    word: None,
    view: || view! { <area::OrderArea /> }.into_any(),
    beside: None,
};
