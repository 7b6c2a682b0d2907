//! Powder on the blank: sifted coat by coat, then dabbed with a sponge; and where the accents will lie.

pub mod accents;
pub mod dab;
pub mod field;
pub mod patches;
pub mod powder_bed;
pub mod sift;
pub mod sponge_face;
