//! The lower part of the house: what the maker wrote down, the glasses on the shelf, and what all else stands on. Its modules
//! are those of `dappledome`, under the same names.

pub mod base;
pub mod color;
pub mod glass;
pub mod recipe;
