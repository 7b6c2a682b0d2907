//! What works behind the page: the workers that draw, the browser's storage, other tabs, files in and out.

pub mod autosave;
pub mod back;
pub mod backup;
pub mod download;
pub mod import;
pub mod keeper;
pub mod ordering;
pub mod photo;
pub mod render;
pub mod storage;
mod tabs;
pub mod thumbnails;
