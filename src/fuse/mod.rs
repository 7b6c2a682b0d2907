//! The full fuse: loose powder becomes clear layers of glass, thinner, level and a little speckled.

pub mod leveling;
pub mod relief;
pub mod settle;
pub mod speckle;
