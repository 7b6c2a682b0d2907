//! The beginning of keeping: what was kept is read, and then followed, here and in other tabs.

use super::ledger::Paper;
use super::service::{KINDS, Keeper};
use crate::dom::clock;
use crate::dom::window::before_the_end;
use crate::model::faults::StorageFault;
use crate::model::ids::{LogId, OrderId};
use crate::model::records::{SaveState, Stored};
use crate::services::autosave::unsaved::{self, Unsaved};
use crate::services::storage;
use crate::services::tabs::{PAPERS, Tabs};
use dappledome::keep::content::{Content, Kind};
use dappledome::orders::bench::Bench;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;

/// How long until it is read again where it could not be.
const RETRY: Duration = Duration::from_secs(5);
/// So many texts are read at a stretch.
const AT_ONCE: usize = 8;

impl Keeper {
    /// Begins to keep orders, the bench and the log, as long as the present owner lives. Takes the contexts of the page and the autosave.
    pub fn start() -> Self {
        let keeper = Self::of_contexts();
        keeper.tabs.set_value(Tabs::open(PAPERS, move |_| {
            if keeper.read.get_value() {
                spawn_local(async move {
                    // What cannot be read now shows when it is saved.
                    let _ = keeper.follow().await;
                });
            }
        }));
        Effect::new(move || {
            keeper.orders.list.track();
            keeper.orders.bench.track();
            keeper.log.list.track();
            keeper.changed();
        });
        before_the_end(move || keeper.hide());
        on_cleanup(move || keeper.timer.stop());
        spawn_local(keeper.begin());
        keeper
    }

    /// Reads everything, with what an ended page could not keep any more; until that is done nothing is saved.
    async fn begin(self) {
        if let Err(fault) = self.follow().await {
            self.saving.papers.set(SaveState::Not(fault));
            set_timeout(move || spawn_local(self.begin()), RETRY);
            return;
        }
        self.recover();
        self.saving.papers.set(SaveState::Untouched);
        self.read.set_value(true);
        self.save_now();
    }

    /// Takes over what is stored, but for what was changed here and is not kept: that shows when it is saved.
    async fn follow(&self) -> Result<(), StorageFault> {
        for kind in KINDS {
            let mut texts = storage::texts(kind).await?;
            texts.sort_by(|(_, a), (_, b)| b.changed.total_cmp(&a.changed));
            let there: Vec<u64> = texts.iter().map(|(id, _)| *id).collect();
            for (at, (id, stored)) in texts.into_iter().enumerate() {
                if at % AT_ONCE == AT_ONCE - 1 {
                    clock::pause(Duration::ZERO).await;
                }
                self.follow_one(kind, id, stored);
            }
            let known = self.ledger.with_value(|ledger| ledger.ids(kind));
            for id in known.into_iter().filter(|id| !there.contains(id) && self.is_clean(kind, *id)) {
                self.ledger.update_value(|ledger| ledger.forget(kind, id));
                match kind {
                    Kind::Order => self.orders.forget(OrderId(id)),
                    Kind::Entry => self.log.list.update(|list| list.retain(|one| one.id != LogId(id))),
                    Kind::Bench => self.orders.bench.set(Bench::default()),
                    Kind::Piece => {}
                }
            }
        }
        Ok(())
    }

    fn follow_one(&self, kind: Kind, id: u64, stored: Stored) {
        let known = self.ledger.with_value(|ledger| ledger.known(kind, id).map(|(_, revision)| *revision));
        if known == Some(stored.revision) || !self.is_clean(kind, id) {
            return;
        }
        match Content::read(kind, &stored.text) {
            Ok(content) => self.take_over(kind, id, &stored, content),
            Err(_) => self.is_damaged(kind, id, stored.text),
        }
    }

    /// Whether nothing was changed here that is not kept.
    fn is_clean(&self, kind: Kind, id: u64) -> bool {
        let now = untrack(|| self.text_of(kind, id));
        self.ledger
            .with_value(|ledger| ledger.known(kind, id).map(|(stored, _)| &stored.text) == now.as_ref())
    }

    /// Lays what an ended page could not keep into the page, as if it had just been changed: over the revision that it was made on.
    fn recover(&self) {
        for kind in KINDS {
            for Unsaved { id, known, text } in unsaved::all(kind) {
                let Ok(content) = Content::read(kind, &text) else { continue };
                let stored = self.ledger.with_value(|ledger| ledger.known(kind, id).cloned());
                let was = stored.as_ref().map(|(paper, _)| paper.text.clone());
                self.take_over(
                    kind,
                    id,
                    &Stored { revision: known.unwrap_or(0), changed: 0.0, text },
                    content,
                );
                // Nothing is known to be stored of it but the revision: it is due, and meets whatever is there.
                self.ledger.update_value(|ledger| match known.zip(was) {
                    Some((known, text)) => ledger.learn(Paper { kind, id, text }, known),
                    None => ledger.forget(kind, id),
                });
            }
        }
    }
}
