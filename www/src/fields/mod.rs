//! The recipe's numbers as data: what each is called, how far it goes, where in the recipe it lives and how it is
//! said. One control draws them all.

pub mod coat;
pub mod firings;
pub mod marks;
pub mod others;
pub mod scale;
mod shorthand;
pub mod stem;
pub mod types;
