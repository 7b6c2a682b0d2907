//! A photo as the source of colors: places marked on it, the light that falls over it, and what a place looks like against a white.

pub mod disc;
mod fault;
pub mod frame;
pub mod light;
pub mod pixels;
mod plane;
pub mod reading;
mod shadow;
