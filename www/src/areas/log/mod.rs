//! The log: what became of the firings, and what to do next time.

mod area;
mod entry;
mod list;
mod offers;
mod outcomes;
mod photo;
mod search;

use super::info::AreaInfo;
use crate::model::ids::AreaId;

/// The area.
pub const AREA: AreaInfo = AreaInfo { id: AreaId::LOG, word: None, view: area::log_area, beside: None };
