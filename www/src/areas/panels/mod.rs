//! Slips of paper under the piece: one file each, with what the page has to know of it in its `PANEL`.

pub mod cautions;
pub mod conflict;
pub mod history;
pub mod how_sure;
pub mod lost;
pub mod new_version;
pub mod refused;
pub mod seen_in;
pub mod settings;
pub mod share;
pub mod stopped;
pub mod welcome;
pub mod went_back;
