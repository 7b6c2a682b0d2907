//! Paper for an order: what stands where on each sheet, as plain data in millimeters. The native program writes it as a PDF, the page
//! draws it as it is and prints it.
//!
//! (The list below is the order of the code; a file uses only what stands above it.)

pub mod sheet;

pub mod metrics;

pub mod block;
pub mod content;

pub mod frame;

pub mod labels;
pub mod make_sheet;
pub mod quote;
pub mod sift_map;

pub mod kind;

#[cfg(not(target_arch = "wasm32"))]
pub mod pdf;
