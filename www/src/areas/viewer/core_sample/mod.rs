//! The core sample: a ring on the glass, and on a panel the layers under it as a small section.

mod panel;
mod ring;
mod sampling;
mod section;

pub use panel::PANEL;
pub use ring::SampleRing;
pub use sampling::Sampling;
