//! What the maker wrote down, the limits it is held to, and the plan made of it.
//!
//! (The list below is the order of the code; a file uses only what stands above it.)

mod check;
mod checks;
mod model;

pub mod demo;
pub mod file;
pub mod limits;
pub mod link;
pub mod mend;
pub mod piece;
pub mod plan;

pub use model::*;
