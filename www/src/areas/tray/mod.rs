//! The tray: sisters of the piece side by side, kept, put away, compared, and chosen from.

mod area;
mod cell;
mod columns;
mod compare;
mod grid;
mod keys;
mod panel;
mod picked_set;
mod picking;
mod pointed;
mod shortlist;
mod state;
mod wipe;

use super::info::AreaInfo;
use crate::model::ids::AreaId;
use leptos::prelude::*;

/// The tray.
pub const AREA: AreaInfo = AreaInfo {
    id: AreaId::TRAY,
    word: None,
    view: || view! { <area::TrayArea /> }.into_any(),
    beside: Some(|| view! { <panel::PanelInSight /> }.into_any()),
};
