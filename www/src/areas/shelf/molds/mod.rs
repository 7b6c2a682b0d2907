//! The molds on the shelf: the maker's own, or invented ones that say so.

mod item;
mod numbers;
mod section;

pub use section::MoldSection;
