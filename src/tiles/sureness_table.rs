//! 95th percentiles.

/// Entries of a row.
pub const NODES: usize = 9;
/// A row goes from 2 to the power of minus this to 2 to the power of this.
pub const FURTHEST: f32 = 4.0;

/// By kind, by noise (8 bits, 1, 2), by day and lit.
pub const FROM_TILES: [[[[f32; NODES]; 2]; 3]; 4] = [[[[1.0; NODES]; 2]; 3]; 4];
