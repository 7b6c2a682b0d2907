//! What lies on the table and beside it. A new area is a folder here and a line in [`ALL`].

pub mod customer;
pub mod finished_size;
pub mod info;
pub mod paper;
pub mod tray;
pub mod viewer;

use info::AreaInfo;

/// The areas that take the table's place.
pub const ALL: [AreaInfo; 3] = [tray::AREA, customer::AREA, paper::AREA];
