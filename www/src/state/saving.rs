//! What the page says of keeping: whether the piece on the table is kept, and what the shelf has to say.

use super::workpiece::Workpiece;
use crate::model::ids::PieceId;
use crate::model::records::{Damaged, Deleted, SaveState, Version};
use dappledome::orders::bench::Bench;
use leptos::prelude::*;

/// What is said of keeping.
#[derive(Clone, Copy, Debug)]
pub struct Saving {
    /// Whether the piece on the table is kept.
    pub state: RwSignal<SaveState>,
    /// How that piece stood when it was said.
    said_of: RwSignal<Option<Version>>,
    /// Counted up whenever the shelf's contents change, in whatever tab.
    pub news: RwSignal<u32>,
    /// Whether orders, the bench and the log are kept.
    pub papers: RwSignal<SaveState>,
    /// Orders and entries of the log that cannot be read, and a bench that cannot.
    pub damaged: RwSignal<Vec<Damaged>>,
    /// The bench as it was written here when another tab wrote on it too.
    pub other_bench: RwSignal<Option<Bench>>,
    /// The piece whose small picture has just been kept.
    pub pictured: RwSignal<Option<PieceId>>,
    /// Numbers of what was kept in this browser and is not there any more.
    pub missing: RwSignal<Vec<u64>>,
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
            said_of: RwSignal::new(None),
            news: RwSignal::new(0),
            papers: RwSignal::new(SaveState::Untouched),
            damaged: RwSignal::new(Vec::new()),
            other_bench: RwSignal::new(None),
            pictured: RwSignal::new(None),
            missing: RwSignal::new(Vec::new()),
            note: RwSignal::new(String::new()),
            deleted: RwSignal::new_local(Vec::new()),
        }
    }

    /// Says how the piece on the table is kept, which stood so.
    pub fn say(&self, state: SaveState, version: Version) {
        if self.state.get_untracked() != state {
            self.state.set(state);
        }
        self.said_of.set(Some(version));
    }

    /// Whether what is said of the piece on the table is said of it as it stands, and not as it stood before its last change.
    pub fn holds_for(&self, piece: Workpiece) -> bool {
        let Some(id) = piece.id.get() else { return true };
        self.said_of.with(|version| {
            version.as_ref().is_some_and(|Version { id: said, piece: then }| {
                *said == Some(id)
                    && *piece.kept.read() == then.recipe
                    && piece.seed.get() == then.seed
                    && *piece.by_hand.read() == then.by_hand
                    && *piece.sisters.read() == then.sisters
            })
        })
    }

    /// The shelf's contents have changed.
    pub fn tell(&self) {
        self.news.update(|news| *news += 1);
    }
}
