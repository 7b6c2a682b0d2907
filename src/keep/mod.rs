//! What is kept and passed on: the log, reading whatever somebody drops on the page, and the back-up of everything.

pub mod log;

pub mod content;

pub mod backup;

pub mod open;
