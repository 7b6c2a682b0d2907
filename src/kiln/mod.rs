//! The kiln: what heat does to the glass of a piece, the programs of its firings, and what a kiln makes of them.
//!
//! (The list below is the order of the code; a file uses only what stands above it.)

pub mod thermal;

pub mod anneal;
pub mod flow;
pub mod wall;

pub mod data;

pub mod checks;
pub mod cooling;
pub mod course;
pub mod piece;
pub mod segment;
pub mod usual;

pub mod beyond;
pub mod chart;

pub mod bench;

pub mod clock;
pub mod fused;

pub mod program;
pub mod sinking;
pub mod taught;

pub mod forewarn;

pub mod firings;

pub mod cautions;
