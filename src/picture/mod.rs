//! Colors and shape turned into pixels: one renderer for the page, the native program, the tests and paper.

pub mod cast;
pub mod domed;
pub mod flat;
mod inward;
pub mod lantern;
pub mod lump;
pub mod pick;
pub mod pixmap;
pub mod png;
pub mod rim;
pub mod shade;
pub mod shell;
pub mod studio;
pub mod surface;
pub mod surroundings;
pub mod tone;
pub mod vec3;
pub mod view;

pub use pixmap::Pixmap;
pub use view::{Light, Stage, View};
