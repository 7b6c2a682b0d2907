//! Layers of glass or of loose powder turned into color, in sixteen bands.

pub mod colors;
pub mod forewarn;
pub mod kubelka_munk;
pub mod layer;
pub mod loose_powder;
pub mod sample;
pub mod stack;
pub mod surface;
pub mod test_tile;
