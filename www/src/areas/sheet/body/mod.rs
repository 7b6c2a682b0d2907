//! What a step shows when it is open.

mod accents;
mod batch;
mod blank;
mod coat;
mod coat_layout;
mod coat_menu;
mod edge;
mod falls;
mod finished;
mod fuse;
mod joint;
mod slump;
mod sponge;
mod stem;
mod step;
mod tack;

pub use blank::add_sheet;
pub use step::{OpenStep, ahead, step_body};
