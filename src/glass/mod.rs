//! The glasses: what each is made of, optically, what else is known of it, and where it is found.

pub mod catalogue;
pub mod cover;
pub mod demo;
pub mod glasses;
pub mod kind;
pub mod material;
pub mod measured;
pub mod melt;
pub mod misfit;
pub mod tile;
pub mod viscosity;
