//! What the maker wrote down, the limits it is held to, and the plan made of it.
//!
//! (The list below is the order of the code; a file uses only what stands above it.)

mod by_hand;
mod checks;
mod firing;
mod firing_checks;
mod glass_checks;
mod hand_checks;
mod model;
mod neighbors;
mod newer_shelf;
mod own_glass;
mod piece_file;
mod planned;
mod stem;
mod stem_checks;
mod strikes;

pub mod check;
pub mod demo;
pub mod file;
pub mod hand;
pub mod hand_work;
pub mod lie;
pub mod limits;
pub mod link;
pub mod mend;
pub mod molds;
pub mod piece;
pub mod plan;
pub mod said;
pub mod shelf;
pub mod sisters;
pub mod together;
pub mod wind;

pub use by_hand::*;
pub use firing::*;
pub use firing_checks::segment_limits;
pub use model::*;
pub use own_glass::Unread;
pub use stem::*;
