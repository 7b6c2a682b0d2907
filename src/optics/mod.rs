//! Layers of glass or of loose powder turned into color, in sixteen bands.

pub mod baked;
pub mod colors;
pub mod edge;
pub mod film;
pub mod forewarn;
pub mod kubelka_munk;
pub mod layer;
pub mod loose_powder;
pub mod palette;
pub mod sample;
pub mod slab;
pub mod stack;
pub mod surface;
pub mod table;
pub mod test_tile;
pub mod told_apart;
