//! Every word on the page, in one place: constants and functions of plain data.

mod by_hand;
pub mod did;
mod options;
mod page;
mod recipe;
mod sample;
mod set_up;
mod shelf;
mod text;
mod tray;

pub use by_hand::*;
pub use options::*;
pub use page::*;
pub use recipe::*;
pub use sample::*;
pub use set_up::*;
pub use shelf::*;
pub use text::*;
pub use tray::*;
