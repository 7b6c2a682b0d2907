//! Colors and shape turned into pixels: one renderer for the page, the native program, the tests and paper.

pub mod pixmap;
pub mod png;
pub mod view;

pub use pixmap::Pixmap;
pub use view::{Light, Stage, View};
