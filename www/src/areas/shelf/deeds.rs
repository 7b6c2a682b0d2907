//! What can be done with a piece on the shelf.

use super::state::ShelfState;
use crate::dom::clock;
use crate::model::faults::StorageFault;
use crate::model::ids::{PieceId, rolled};
use crate::model::records::{Deleted, Stored};
use crate::services::{download, storage};
use crate::words;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// What a word under a piece does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Makes another piece like it.
    Copy,
    /// Takes it off the shelf.
    TakeAway,
    /// Writes what is left of it as a file.
    SaveWhatIsThere,
}

impl Doing {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Copy => words::COPY,
            Self::TakeAway => words::TAKE_AWAY,
            Self::SaveWhatIsThere => words::SAVE_WHAT_IS_THERE,
        }
    }
}

impl ShelfState {
    /// Does with a piece what a word says; then the shelf says what came of it.
    pub fn act(self, doing: Doing, id: PieceId) {
        spawn_local(async move {
            let done = match doing {
                Doing::Copy => self.copy(id).await,
                Doing::TakeAway => self.take_away(id).await,
                Doing::SaveWhatIsThere => self.save_what_is_there(id).await,
            };
            self.note(done);
        });
    }

    /// Whether a piece lies on the table.
    pub fn is_on_table(&self, id: PieceId) -> bool {
        self.piece.id.get() == Some(id)
    }

    /// Puts a piece on the table.
    pub fn take_up(self, id: PieceId) {
        if self.piece.id.get_untracked() == Some(id) {
            return self.nav.go_to_piece();
        }
        spawn_local(async move {
            match storage::piece(id).await.map(|stored| stored.and_then(|stored| self.readable(stored))) {
                Ok(Some((stored, piece))) => self.autosave.take_up(id, &stored, &piece),
                Ok(None) => self.saving.note.set(words::cannot_be_read(&self.title(id))),
                Err(fault) => self.saving.note.set(words::not_kept(fault).into()),
            }
        });
    }

    /// Puts back what was taken away.
    pub fn put_back(self, id: PieceId) {
        // Off the list at once: a second press must not put it back twice.
        let Some(deleted) = self.take_off_the_list(id) else { return };
        spawn_local(async move {
            match storage::put_back(id, &deleted.whole).await {
                Ok(there) => {
                    self.saving.note.set(words::back_again(&deleted.title));
                    self.autosave.back_again(there);
                }
                Err(fault) => {
                    self.saving.deleted.update(|all| all.push(deleted));
                    self.saving.note.set(words::not_kept(fault).into());
                }
            }
        });
    }

    /// Another piece like this one, under the next number.
    async fn copy(self, id: PieceId) -> Result<Option<String>, StorageFault> {
        let stored = storage::piece(id).await?;
        let Some(stored) = stored else { return Ok(None) };
        let Some((_, piece)) = self.readable(stored) else {
            return Ok(Some(words::cannot_be_read(&self.title(id))));
        };
        let mut piece = piece.copy(rolled());
        piece.recipe.title = words::numbered(&piece.recipe.title, |title| self.has_title(title));
        let fresh = PieceId::fresh();
        storage::add(fresh, &piece, clock::now(), None).await?;
        self.autosave.changed_on_shelf(fresh);
        Ok(Some(words::copied_as(&piece.recipe.title, piece.seed)))
    }

    /// Off the shelf with it; until the page is closed it can be put back.
    async fn take_away(self, id: PieceId) -> Result<Option<String>, StorageFault> {
        let title = self.title(id);
        let whole = storage::take_away(id).await?;
        // A second press finds nothing to take away any more, and nothing to be put back.
        if whole.text.is_undefined() {
            return Ok(None);
        }
        self.announcer.say(words::taken_away(&title));
        self.saving.deleted.update(|all| all.push(Deleted { id, title, whole }));
        self.autosave.forget(id);
        // The list says it; what the shelf said before is over.
        Ok(Some(String::new()))
    }

    /// Writes what is left of a damaged piece as a file.
    async fn save_what_is_there(self, id: PieceId) -> Result<Option<String>, StorageFault> {
        let Some(stored) = storage::piece(id).await? else { return Ok(None) };
        let name = words::file_name(&self.title(id), "json");
        let saved = download::text(&name, "application/json", &stored.text);
        Ok(Some(words::saved_as(&name, saved)))
    }

    /// Says what came of something, if there is anything to say.
    fn note(&self, done: Result<Option<String>, StorageFault>) {
        match done {
            Ok(Some(words)) => self.saving.note.set(words),
            Ok(None) => {}
            Err(fault) => self.saving.note.set(words::not_kept(fault).into()),
        }
    }

    fn readable(&self, stored: Stored) -> Option<(Stored, Piece)> {
        let piece = Piece::read(&stored.text, self.piece.seed.get_untracked()).ok()?;
        Some((stored, piece))
    }

    fn take_off_the_list(&self, id: PieceId) -> Option<Deleted> {
        let take = |all: &mut Vec<Deleted>| {
            let at = all.iter().rposition(|deleted| deleted.id == id)?;
            Some(all.remove(at))
        };
        self.saving.deleted.try_update(take).flatten()
    }
}
