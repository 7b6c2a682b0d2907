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
use crate::model::ids::AreaId;
use leptos::prelude::*;

/// The area.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::FIRINGS,
    word: None,
    view: || view! { <area::FiringsArea /> }.into_any(),
    beside: None,
};
