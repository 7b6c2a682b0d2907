//! What somebody has ordered: grams to weigh, discs to cut, loads to fire, days to work, and what it costs.
//!
//! (The list below is the order of the code; a file uses only what stands above it.)

pub mod dates;
pub mod limits;
pub mod model;
pub mod progress;

pub mod file;
pub mod pieces;

pub mod begin;

pub mod checks;

pub mod bench;

pub mod cuts;
pub mod loads;

pub mod days;
pub mod money;
pub mod stems;

pub mod weigh;

pub mod price;

pub mod worked;

pub mod suffice;
