//! The color of single columns of sheet and powder, as the swatches, the test tile, the core sample and the pictures' palette give
//! it, against a calculation of its own (`tests/support/haze.rs`): by hand-made beds and discs whose every layer is known.

#[path = "columns/bench.rs"]
mod bench;
#[path = "columns/fields.rs"]
mod fields;
#[path = "columns/forewarned.rs"]
mod forewarned;
#[path = "support/haze.rs"]
mod haze;
#[path = "columns/sampled.rs"]
mod sampled;
#[path = "columns/swatches.rs"]
mod swatches;
