//! Every word on the page, in one place: constants and functions of plain data.

mod by_hand;
mod cautions;
pub mod did;
mod finished;
mod firings;
mod kiln;
mod molds;
mod options;
mod order_paper;
mod page;
mod recipe;
mod sample;
mod set_up;
mod shelf;
mod sinking;
mod text;
mod ticket;
mod tray;

pub use by_hand::*;
pub use cautions::*;
pub use finished::*;
pub use firings::*;
pub use kiln::*;
pub use molds::*;
pub use options::*;
pub use order_paper::*;
pub use page::*;
pub use recipe::*;
pub use sample::*;
pub use set_up::*;
pub use shelf::*;
pub use sinking::*;
pub use text::*;
pub use ticket::*;
pub use tray::*;
