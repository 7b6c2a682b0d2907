//! Opens what the maker brings.

use leptos::html;
use leptos::prelude::*;

/// Opens what the maker brings.
#[derive(Clone, Copy)]
pub struct Importer {
    /// The field through which the browser lets a file be chosen.
    pub field: NodeRef<html::Input>,
}

impl Importer {
    /// Begins to accept what is dropped, pasted or in the address.
    pub fn start() -> Self {
        Self { field: NodeRef::new() }
    }

    /// Lets the maker choose a file.
    pub fn choose(&self) {}

    /// Opens the file that was chosen.
    pub fn take_chosen(&self) {}
}
