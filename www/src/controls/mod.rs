//! What areas are built of: choices, pictures, panels, sliders.

pub mod choice;
pub mod later;
pub mod panel;
pub mod picture;
pub mod slider;
pub mod what_seeds_are;
