//! What lies on the table and beside it. A new area is a folder here and a line in [`ALL`], a new panel one in [`PANELS`].

pub mod info;
mod panels;
mod shelf;

use info::{AreaInfo, PanelInfo};

/// The areas that take the table's place.
pub const ALL: [AreaInfo; 1] = [shelf::AREA];

/// The panels under the piece.
pub const PANELS: [PanelInfo; 8] = [
    panels::welcome::PANEL,
    panels::refused::PANEL,
    panels::stopped::PANEL,
    panels::new_version::PANEL,
    panels::conflict::PANEL,
    panels::history::PANEL,
    panels::share::PANEL,
    panels::settings::PANEL,
];
