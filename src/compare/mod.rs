//! What came out of the kiln against what was foretold, color by color: two hands never sift alike, so places are not compared.

pub mod foretold;
pub mod hand;
mod nearest;
pub mod row;
pub mod rows;
pub mod says;
