//! What is kept and passed on: reading whatever somebody drops on the page, and the back-up of everything.

pub mod backup;
pub mod open;
