//! What works behind the page: the workers that draw, the browser's storage, other tabs, files in and out.

pub mod backup;
pub mod render;
