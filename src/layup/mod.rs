//! Powder on the blank: sifted coat by coat, then dabbed with a sponge and rubbed off by hand; and where the accents
//! will lie.

mod contour;
mod edge;
mod laid;
mod patch_fall;
mod patchwork;
mod rim;
mod warp;

pub mod accents;
pub mod dab;
pub mod field;
pub mod outlines;
pub mod patches;
pub mod powder_bed;
pub mod rub;
pub mod sift;
pub mod sponge_face;
