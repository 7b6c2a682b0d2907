//! What the maker takes to the bench: grams, discs and sizes.

pub mod cover;
pub mod order;
pub mod sisters;
pub mod stem;
pub mod ticket;
