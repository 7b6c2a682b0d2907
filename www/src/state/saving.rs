//! What the page says of keeping: whether the piece on the table is kept, and what the shelf has to say.

use crate::model::ids::PieceId;
use crate::model::records::{Deleted, SaveState};
use leptos::prelude::*;

/// What is said of keeping.
#[derive(Clone, Copy, Debug)]
pub struct Saving {
    /// Whether the piece on the table is kept.
    pub state: RwSignal<SaveState>,
    /// Counted up whenever the shelf's contents change, in whatever tab.
    pub news: RwSignal<u32>,
    /// The piece whose small picture has just been kept.
    pub pictured: RwSignal<Option<PieceId>>,
    /// What the shelf has to say.
    pub note: RwSignal<String>,
    /// What was taken off the shelf since the page was opened, the last one last.
    pub deleted: RwSignal<Vec<Deleted>, LocalStorage>,
}

impl Saving {
    /// Nothing kept yet.
    pub fn new() -> Self {
        Self {
            state: RwSignal::new(SaveState::Untouched),
            news: RwSignal::new(0),
            pictured: RwSignal::new(None),
            note: RwSignal::new(String::new()),
            deleted: RwSignal::new_local(Vec::new()),
        }
    }

    /// Says how the piece on the table is kept.
    pub fn say(&self, state: SaveState) {
        if self.state.get_untracked() != state {
            self.state.set(state);
        }
    }

    /// The shelf's contents have changed.
    pub fn tell(&self) {
        self.news.update(|news| *news += 1);
    }
}
