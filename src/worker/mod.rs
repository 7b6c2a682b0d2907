//! The drawing hand: what the page asks for and what comes back, one job at a time.

mod against;
mod as_text;
pub mod asked;
pub mod desk;
mod find;
pub mod jobs;
mod orders;
mod paper;
pub mod protocol;
