//! The beginning of keeping.

use super::service::Autosave;
use super::unsaved;
use crate::dom::window::before_the_end;
use crate::services::storage;
use leptos::prelude::*;
use leptos::task::spawn_local;

impl Autosave {
    /// Begins to keep what lies on the table, as long as the present owner lives, and lays there what lay there last unless
    /// the address brought a piece. Takes the contexts of the page and the thumbnails.
    pub fn start() -> Self {
        storage::go_on_in_doubt();
        let autosave = Self::of_contexts();
        autosave.listen_to_tabs();
        autosave.keep_table();
        before_the_end(move || autosave.hide());
        autosave.recover();
        autosave
    }

    fn keep_table(self) {
        let piece = self.piece;
        Effect::new(move || {
            self.changed(piece.followed());
        });
        on_cleanup(move || self.timer.stop());
    }

    fn recover(self) {
        let brought = self.piece.id.get_untracked().is_some();
        if !brought && unsaved::last().is_some() {
            // The welcome is for those who have been here never before.
            self.nav.close_panel();
        }
        spawn_local(async move {
            self.keep_unsaved().await;
            if !brought {
                self.lay_last().await;
            }
            self.miss().await;
            if storage::doubt().is_some() {
                self.save_now();
            }
        });
    }
}
