//! The glasses: what each is made of, optically, and the shelf they stand on.

pub mod catalogue;
pub mod demo;
pub mod material;
pub mod melt;
pub mod viscosity;
