//! The full fuse: loose powder becomes clear layers of glass, thinner, level and a little speckled;
//! the stack keeps its size or does not, its edge and its accents round.

pub mod edge_profile;
pub mod leveling;
pub mod relief;
pub mod settle;
pub mod speckle;
pub mod spread;
pub mod tack;
