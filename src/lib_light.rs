//! What is computed for every cell, ring and pixel: powder laid, fused, slumped and seen; and how many
//! discs go on a shelf; and what a photo shows. Its modules are those of `dappledome`,
//! under the same names; it is a package of its own because it alone is built for speed in the browser.

pub use dappledome_recipe::{base, color, glass, recipe};

pub mod fuse;
pub mod layup;
pub mod optics;
pub mod packing;
pub mod photo;
pub mod picture;
pub mod slump;
pub mod tiles;
