//! The back-up of everything to one file, and back again.

/// Saves everything as one file and brings it back.
#[derive(Clone, Copy)]
pub struct Backups;

impl Backups {
    /// Takes the contexts of the page.
    pub fn start() -> Self {
        Self
    }

    /// Saves everything that is kept as one file, and says what came of it on the shelf.
    pub fn back_up(&self) {}

    /// Saves everything that is kept as one file, then tells what came of it.
    pub fn back_up_then(&self, _tell: impl FnOnce(String) + 'static) {}

    /// Brings the pieces of a back-up in, beside what is there, and shows them on the shelf.
    pub fn bring_in(&self, _text: String) {}
}
