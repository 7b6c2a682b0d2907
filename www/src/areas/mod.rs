//! What lies on the table and beside it. A new area is a folder here and a line in [`ALL`].

pub mod info;
pub mod sheet;

use info::AreaInfo;

/// The areas that take the table's place.
pub const ALL: [AreaInfo; 0] = [];
