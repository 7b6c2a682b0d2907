//! What is said to those who do not see the page.

use leptos::prelude::*;

/// The page's live region.
#[derive(Clone, Copy, Debug)]
pub struct Announcer(RwSignal<String>);

impl Announcer {
    /// Nothing said yet.
    pub fn new() -> Self {
        Self(RwSignal::new(String::new()))
    }

    /// Says something.
    pub fn say(&self, text: impl Into<String>) {
        self.0.set(text.into());
    }

    /// What was said last.
    pub fn said(&self) -> String {
        self.0.get()
    }
}
