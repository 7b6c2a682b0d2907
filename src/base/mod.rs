//! The ground floor: units, numbers that agree on every machine, the disc and its grid, chance, and notices.

pub mod data;
pub mod disc;
pub mod firing;
pub mod grid;
pub mod lanes;
pub mod line;
pub mod memo;
pub mod middle;
pub mod notice;
pub mod order;
pub mod rows;
pub mod scalar;
pub mod seed;
pub mod shown;
pub mod text;
pub mod typed;
pub mod typed_pair;
pub mod units;
