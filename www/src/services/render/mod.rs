//! Asking workers for pictures and numbers.

pub mod client;
pub mod orders;
mod own_worker;
pub mod paper;
pub mod piece;
pub mod pool;
pub mod program;
mod queue;
pub mod request;
pub mod sample;
mod sampled;
mod sister_jobs;
pub mod sisters;
