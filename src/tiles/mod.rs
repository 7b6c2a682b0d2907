//! From fired test tiles to a glass, how sure its colors are, and which jars come nearest to a wanted color.

pub mod doubt;
pub mod find;
mod fired;
pub mod fit;
pub mod ladder;
mod least_squares;
pub mod next_tile;
pub mod places;
mod smooth;
mod solve;
pub mod sureness;
mod sureness_table;
pub mod tile;
