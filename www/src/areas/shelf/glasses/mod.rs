//! The glasses on the shelf: the maker's own first, then the catalogue's.

mod disc;
mod ladders;
mod numbers;
mod opened;
mod section;

pub use section::glass_section;
