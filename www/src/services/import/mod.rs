//! Files in: opened by a choice, a drop or a paste, and pieces in the page's address.

mod importer;

pub use importer::Importer;
