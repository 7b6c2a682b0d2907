//! Layers of glass or loose powder turned into color.

pub mod test_tile;
