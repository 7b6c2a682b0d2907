//! The drawing hand: what the page asks for and what comes back, one job at a time.

pub mod asked;
pub mod desk;
pub mod jobs;
mod orders;
mod paper;
pub mod protocol;
