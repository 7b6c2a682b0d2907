//! What is kept and passed on: reading whatever somebody drops on the page.

pub mod open;
