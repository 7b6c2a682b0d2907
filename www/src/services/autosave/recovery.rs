//! When the page is opened: what an ended page could not keep any more, and the piece that lay on the table last.

use super::kept;
use super::service::{Autosave, second};
use super::unsaved::{self, Unsaved};
use crate::dom::clock;
use crate::model::faults::StorageFault;
use crate::model::ids::{FIRST_SEED, PanelId, PieceId};
use crate::model::records::{SaveState, Saved, Version};
use crate::services::storage;
use dappledome::keep::content::Kind;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;

impl Autosave {
    /// Keeps what a page that was ended could not keep any more; beside what was kept since, if it was.
    pub(super) async fn keep_unsaved(&self) {
        for unsaved in unsaved::all(Kind::Piece) {
            let Ok(piece) = Piece::read(&unsaved.text, FIRST_SEED) else { continue };
            let id = PieceId(unsaved.id);
            let Ok(there) = storage::piece(id).await else { return };
            let known = unsaved.known.filter(|_| there.is_some());
            if keep(&Unsaved { known, ..unsaved }, &piece).await.is_ok() {
                unsaved::drop_one(Kind::Piece, id.0);
                self.changed_on_shelf(id);
            }
        }
    }

    /// Lays on the table what lay there last in this tab, or in this browser, or else what was changed last.
    pub(super) async fn lay_last(&self) {
        let Some(id) = last().await else { return };
        let stored = storage::piece(id).await.ok().flatten();
        let piece = stored.as_ref().and_then(|stored| Piece::read(&stored.text, FIRST_SEED).ok());
        // Whoever was quicker than the storage goes on with what is under the hand.
        if self.piece.id.get_untracked().is_some()
            || self.piece.next_steps.with_untracked(|next| next.count > 0)
        {
            return;
        }
        let (Some(stored), Some(piece)) = (stored, piece) else {
            return self.nav.open_panel(PanelId::WELCOME);
        };
        self.queue(|queue| queue.take_up(id, &stored, &piece));
        self.nav.close_panel();
        self.piece.lay(Version { id: Some(id), piece });
        self.say(SaveState::Since(stored.changed));
    }

    /// Says so if pieces, orders or entries of the log that were kept here are not here any more. A database that is broken has none; one that there is no
    /// room to open, or that is not to be used now, may have all.
    pub(super) async fn miss(&self) {
        let there = match storage::ids().await {
            Ok(there) => there,
            Err(StorageFault::Broken) => Vec::new(),
            Err(_) => return,
        };
        let missing = kept::missing(&there);
        if !missing.is_empty() {
            self.saving.missing.set(missing);
            self.nav.open_panel(PanelId::LOST);
        }
    }

    /// The maker knows that some are missing: it is not said again.
    pub fn leave_missing(&self) {
        for id in self.saving.missing.get_untracked() {
            kept::forget(id);
            unsaved::forget(PieceId(id));
        }
        self.nav.close_panel();
    }
}

async fn keep(unsaved: &Unsaved, piece: &Piece) -> Result<Saved, StorageFault> {
    let now = clock::now();
    match storage::save(PieceId(unsaved.id), unsaved.known, piece, &unsaved.text, now).await? {
        Saved::Changed(_) => {
            let piece = second(piece);
            storage::save(PieceId::fresh(), None, &piece, &piece.write(), now).await
        }
        saved => Ok(saved),
    }
}

/// The piece that lay on the table last, if it is there, or else the one that was changed last.
async fn last() -> Option<PieceId> {
    let cards = storage::cards().await.ok()?;
    unsaved::last().filter(|id| cards.iter().any(|card| card.id == *id)).or(cards.first().map(|card| card.id))
}
