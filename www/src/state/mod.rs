//! What the page knows, as contexts: each a small group of signals with what can be done to them.

pub mod against;
pub mod announcer;
pub mod finding;
pub mod fired;
pub mod glasses;
pub mod history;
pub mod kilns;
pub mod log;
pub mod molds;
pub mod nav;
pub mod notices;
pub mod order_paper;
pub mod orders;
pub mod pictures;
pub mod preferences;
pub mod results;
pub mod saving;
pub mod sinking;
pub mod tile_draft;
pub mod tray;
pub mod viewing;
pub mod workpiece;
