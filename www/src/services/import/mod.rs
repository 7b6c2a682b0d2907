//! Files in: opened by a choice, a drop or a paste; and pieces in the page's address.

pub mod address;
mod importer;
mod intake;
mod sort;

pub use importer::Importer;
