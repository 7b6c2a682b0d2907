//! Plain data of the page: what things are called by, where the camera stands, what is stored. No signals, no browser.

pub mod camera;
pub mod demos;
pub mod faults;
pub mod ids;
pub mod local_time;
pub mod mold_forms;
pub mod photo;
pub mod records;
pub mod search;
pub mod sinking;
pub mod slots;
pub mod theme;
