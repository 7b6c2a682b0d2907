//! What came out of the kiln against what was foretold: color by color, since two hands never sift alike; and place by place for what was
//! sifted by a map.

pub mod by_place;
pub mod foretold;
pub mod hand;
mod nearest;
pub mod refit;
pub mod row;
pub mod rows;
pub mod says;
