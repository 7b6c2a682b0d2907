//! What other tabs make of the piece on the table.

use super::service::Autosave;
use super::unsaved;
use crate::model::ids::PieceId;
use crate::model::records::{SaveState, Stored, Version};
use crate::services::storage;
use crate::services::tabs::{PIECES, Tabs};
use crate::words;
use dappledome::keep::content::Kind;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;

impl Autosave {
    /// The other tab's piece comes on the table. What lay here can be had back by a step back.
    pub fn take_that_one(&self) {
        self.nav.close_panel();
        let Some(id) = self.piece.id.get_untracked() else { return };
        let autosave = *self;
        spawn_local(async move {
            match storage::piece(id).await {
                Ok(Some(stored)) => autosave.take_over(id, &stored),
                Ok(None) => {}
                Err(fault) => autosave.say(SaveState::Not(fault)),
            }
        });
    }

    /// This tab's piece becomes another one.
    pub fn keep_both(&self) {
        self.nav.close_panel();
        self.piece.edit(&words::lower(words::KEEP_BOTH), |recipe| {
            recipe.title = words::numbered(&recipe.title, |_| false);
        });
        if let Some(id) = self.piece.id.get_untracked() {
            unsaved::drop_one(Kind::Piece, id.0);
        }
        self.queue(|queue| queue.clear());
        self.renumber(PieceId::fresh());
        self.save_in(Duration::ZERO);
    }

    /// Hears what other tabs have saved or taken away.
    pub(super) fn listen_to_tabs(&self) {
        let autosave = *self;
        self.tabs.set_value(Tabs::open(PIECES, move |id| {
            autosave.saving.tell();
            if id.is_some_and(|id| autosave.is_on_table(PieceId(id))) {
                spawn_local(autosave.follow());
            }
        }));
    }

    /// Takes over what another tab made of the piece on the table, if nothing was changed here that is not kept.
    async fn follow(self) {
        let Version { id: Some(id), piece } = self.piece.version() else { return };
        let text = piece.write();
        if !self.is_clean(id, &text) {
            return;
        }
        let Ok(stored) = storage::piece(id).await else { return };
        if !self.is_clean(id, &text) {
            return;
        }
        match stored {
            Some(stored) if stored.text != text => self.take_over(id, &stored),
            Some(stored) => self.queue(|queue| queue.know(id, &stored)),
            None => self.say(SaveState::Away),
        }
    }

    /// Whether this piece lies on the table, as this text, and is kept so.
    fn is_clean(&self, id: PieceId, text: &str) -> bool {
        let now = self.piece.version();
        now.id == Some(id)
            && now.piece.write() == text
            && self.queue(|queue| queue.state_of(id, text).is_some())
    }

    fn take_over(&self, id: PieceId, stored: &Stored) {
        let Ok(piece) = Piece::read(&stored.text, self.piece.seed.get_untracked()) else { return };
        self.queue(|queue| queue.take_up(id, stored, &piece));
        unsaved::drop_one(Kind::Piece, id.0);
        self.piece.adopt(words::OTHER_TAB, Version { id: Some(id), piece });
        self.say(SaveState::Since(stored.changed));
        self.announcer.say(words::TAKEN_OVER);
    }
}
