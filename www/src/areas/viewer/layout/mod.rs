//! Layout by hand on the flat glass: the open coat's patches, or the accents, outlined to be moved and taken off; a
//! knob that turns the coat; the corner of a sponge.

mod changes;
mod drag;
pub mod dragging;
mod free_place;
mod handles;
mod knob;
mod label;
mod line;
mod marks;
mod offer;
pub mod sponge;
mod sponge_ring;
mod state;
mod things;
mod tool;

pub use handles::Handles;
pub use line::HandLine;
pub use marks::Marks;
pub use offer::has_line;
pub use sponge_ring::SpongeRing;
pub use state::HandLayout;
