//! The table: the piece large, its stages on their spine, the light and the seed, and the panel that lies under it.

mod arrows;
mod bottom_line;
pub mod core_sample;
mod dimensions;
mod edge;
mod glass;
mod layout;
mod map;
mod seed;
mod seen;
pub mod sinking;
mod spine;
mod top_line;
mod twin;
mod view;

pub use view::Viewer;
