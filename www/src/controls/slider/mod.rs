//! A slider: label, values to type, and a scale with its thumbs.

mod control;
mod gesture;
mod scale;
mod state;
pub mod steps;
mod tile;
mod typing;

pub use control::Slider;
