//! The kiln on the shelf: a guess that says so, or the maker's own.

mod cooling;
mod own;
mod section;

pub use section::KilnSection;
