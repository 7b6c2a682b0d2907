//! What lies on the table and beside it. A new area is a folder here and a line in [`ALL`], a new panel one in
//! [`PANELS`].

mod against;
pub mod customer;
mod find;
pub mod finished_size;
mod firings;
pub mod info;
mod log;
mod order;
mod panels;
pub mod paper;
pub mod printed_ticket;
pub mod sheet;
mod shelf;
mod tile;
pub mod tray;
pub mod viewer;

use info::{AreaInfo, PanelInfo};

pub use panels::cautions::CautionsOver;

/// The areas that take the table's place, in the order of their words in the top line.
pub const ALL: [AreaInfo; 11] = [
    shelf::AREA,
    paper::AREA,
    tray::AREA,
    customer::AREA,
    firings::AREA,
    log::AREA,
    tile::AREA,
    find::AREA,
    against::AREA,
    order::AREA,
    paper::ORDER_AREA,
];

/// The panels under the piece, in the order of their words in the top line.
pub const PANELS: [PanelInfo; 15] = [
    panels::welcome::PANEL,
    panels::went_back::PANEL,
    panels::lost::PANEL,
    panels::refused::PANEL,
    panels::stopped::PANEL,
    panels::new_version::PANEL,
    panels::conflict::PANEL,
    viewer::core_sample::PANEL,
    viewer::sinking::PANEL,
    panels::seen_in::PANEL,
    panels::how_sure::PANEL,
    panels::history::PANEL,
    panels::share::PANEL,
    panels::settings::PANEL,
    panels::cautions::PANEL,
];
