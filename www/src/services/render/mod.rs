//! Asking workers for pictures and numbers.

pub mod client;
pub mod desk;
mod orders;
mod own_worker;
mod paper;
pub mod piece;
pub mod pool;
pub mod program;
mod queue;
pub mod request;
pub mod sample;
mod sampled;
mod sister_jobs;
pub mod sisters;
