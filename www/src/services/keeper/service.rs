//! Saves orders, the bench and the log.

use super::ledger::{Deed, Ledger, Paper};
use crate::dom::clock;
use crate::dom::timer::Timer;
use crate::model::faults::StorageFault;
use crate::model::ids::{LogId, OrderId};
use crate::model::records::{Damaged, OrderRecord, SaveState, Saved, Stored};
use crate::services::autosave::{Autosave, kept, unsaved};
use crate::services::storage;
use crate::services::tabs::Tabs;
use crate::state::announcer::Announcer;
use crate::state::log::Log;
use crate::state::orders::Orders;
use crate::state::saving::Saving;
use crate::words;
use dappledome::keep::backup;
use dappledome::keep::content::{Content, Kind};
use dappledome::orders::bench::Bench;
use dappledome::orders::file;
use dappledome::orders::model::Order;
use js_sys::Uint8Array;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::JsValue;

/// The number of the bench: there is one.
pub(super) const BENCH: u64 = 0;
/// How long the hand must have rested before a change is saved.
const REST: Duration = Duration::from_millis(400);
/// How long until saving is tried again where it failed.
const RETRY: Duration = Duration::from_secs(5);

/// What is kept beside pieces.
pub(super) const KINDS: [Kind; 3] = [Kind::Order, Kind::Bench, Kind::Entry];

/// Saves orders, the bench and the log.
#[derive(Clone, Copy)]
pub struct Keeper {
    pub(super) orders: Orders,
    pub(super) log: Log,
    pub(super) saving: Saving,
    pub(super) announcer: Announcer,
    pub(super) autosave: Autosave,
    pub(super) ledger: StoredValue<Ledger>,
    pub(super) tabs: StoredValue<Option<Tabs>, LocalStorage>,
    /// Whether what was kept has been read: nothing is saved before.
    pub(super) read: StoredValue<bool>,
    busy: StoredValue<bool>,
    pub(super) timer: Timer,
    /// Photos of entries that were taken away, to be put back with them.
    photos: StoredValue<Vec<(u64, JsValue)>, LocalStorage>,
}

impl Keeper {
    /// One that keeps nothing yet. Takes the contexts of the page and the autosave.
    pub(super) fn of_contexts() -> Self {
        Self {
            orders: expect_context(),
            log: expect_context(),
            saving: expect_context(),
            announcer: expect_context(),
            autosave: expect_context(),
            ledger: StoredValue::new(Ledger::default()),
            tabs: StoredValue::new_local(None),
            read: StoredValue::new(false),
            busy: StoredValue::new(false),
            timer: Timer::new(),
            photos: StoredValue::new_local(Vec::new()),
        }
    }

    /// Everything as it stands, as texts, followed.
    pub(super) fn papers(&self) -> Vec<Paper> {
        let mut papers = Vec::new();
        for OrderRecord { id, order } in self.orders.list.read().iter() {
            let text = file::write(order).into();
            papers.push(Paper { kind: Kind::Order, id: id.0, text });
        }
        for record in self.log.list.read().iter() {
            papers.push(Paper { kind: Kind::Entry, id: record.id.0, text: record.text.clone() });
        }
        papers.extend(self.text_of(Kind::Bench, BENCH).map(|text| Paper {
            kind: Kind::Bench,
            id: BENCH,
            text,
        }));
        papers
    }

    /// How one of them stands, followed; none if it is not there. A bench that nobody has written anything on is none.
    pub(super) fn text_of(&self, kind: Kind, id: u64) -> Option<Arc<str>> {
        match kind {
            Kind::Order => {
                let list = self.orders.list.read();
                let record = list.iter().find(|record| record.id == OrderId(id))?;
                Some(file::write(&record.order).into())
            }
            Kind::Entry => {
                let list = self.log.list.read();
                list.iter().find(|record| record.id == LogId(id)).map(|record| record.text.clone())
            }
            Kind::Bench if id == BENCH => {
                let bench = self.orders.bench.get();
                let known = self.ledger.with_value(|ledger| ledger.known(Kind::Bench, BENCH).is_some());
                (known || bench != Bench::default()).then(|| bench.write().into())
            }
            Kind::Bench | Kind::Piece => None,
        }
    }

    fn due(&self) -> Vec<Deed> {
        let papers = untrack(|| self.papers());
        self.ledger.with_value(|ledger| ledger.due(&papers))
    }

    /// Something has changed: it is saved once the hand rests.
    pub(super) fn changed(&self) {
        if self.read.get_value() {
            self.save_in(REST);
        }
    }

    pub(super) fn save_in(&self, time: Duration) {
        let keeper = *self;
        self.timer.start(time, move || keeper.save_now());
    }

    /// Saves what is not kept yet.
    pub(super) fn save_now(&self) {
        if self.read.get_value() && !self.busy.get_value() {
            self.busy.set_value(true);
            spawn_local((*self).save_all());
        }
    }

    async fn save_all(self) {
        let saved = self.save_due().await;
        self.busy.set_value(false);
        match saved {
            Ok(0) => {}
            Ok(_) => {
                self.say(SaveState::Since(clock::now()));
                self.tell();
                // What was changed meanwhile, and what a conflict has made.
                self.save_in(REST);
            }
            Err(fault) => {
                self.say(SaveState::Not(fault));
                self.save_in(RETRY);
            }
        }
    }

    /// Does what is due; how much that was. In doubt the autosave proves all of it.
    async fn save_due(&self) -> Result<usize, StorageFault> {
        let due = self.due();
        if !due.is_empty() {
            self.autosave.hold().await?;
        }
        let count = due.len();
        for deed in due {
            match deed {
                Deed::Save(paper, known) => self.save(paper, known).await?,
                Deed::TakeAway(paper, revision) => self.take_away(paper, revision).await?,
            }
        }
        if count > 0 && storage::doubt().is_some() {
            self.autosave.save_now();
        }
        Ok(count)
    }

    async fn save(&self, paper: Paper, known: Option<u32>) -> Result<(), StorageFault> {
        let Paper { kind, id, text } = &paper;
        storage::ask_to_last();
        let photo = self.photos.with_value(|photos| photos.iter().find(|(of, _)| of == id).cloned());
        let photo = photo.map(|(_, photo)| photo);
        let now = clock::now();
        let saved = match storage::save_text(*kind, *id, known, text, now, photo.as_ref()).await? {
            // Another tab took away what was changed here: the change brings it back.
            Saved::Gone => storage::save_text(*kind, *id, None, text, now, photo.as_ref()).await?,
            saved => saved,
        };
        match saved {
            Saved::As(revision) => self.is_kept(paper, revision),
            Saved::Changed(_) | Saved::Gone => self.meet(paper).await?,
        }
        Ok(())
    }

    fn is_kept(&self, paper: Paper, revision: u32) {
        let (kind, id) = (paper.kind, paper.id);
        unsaved::drop_one(kind, id);
        kept::note(id);
        let put_back = self.photos.try_update_value(|photos| {
            let before = photos.len();
            photos.retain(|(of, _)| *of != id);
            photos.len() < before
        });
        if put_back == Some(true) {
            // An entry that is open already looks for its photo again.
            self.log.pictured.update(|count| *count += 1);
        }
        self.ledger.update_value(|ledger| ledger.learn(paper, revision));
    }

    /// Something else lies where a text is to be stored. What cannot be read makes room for it, and stays.
    async fn meet(&self, paper: Paper) -> Result<(), StorageFault> {
        let Paper { kind, id, text } = &paper;
        let Some(stored) = storage::text(*kind, *id).await? else { return Ok(()) };
        if let Ok(theirs) = Content::read(*kind, &stored.text) {
            self.keep_both(&paper, &stored, theirs);
            return Ok(());
        }
        let fresh = OrderId::fresh().0;
        storage::save_text(*kind, fresh, None, &stored.text, stored.changed, None).await?;
        self.saving.damaged.update(|all| all.retain(|one| (one.kind, one.id) != (*kind, *id)));
        self.is_damaged(*kind, fresh, stored.text);
        let saved = storage::save_text(*kind, *id, Some(stored.revision), text, clock::now(), None).await?;
        if let Saved::As(revision) = saved {
            self.is_kept(paper, revision);
        }
        Ok(())
    }

    /// Another tab has changed the same: its own takes this place, and what was made here becomes another one. Of benches there is only
    /// one: the other one can be had instead.
    fn keep_both(&self, Paper { kind, id, text }: &Paper, stored: &Stored, theirs: Content) {
        let Ok(mine) = Content::read(*kind, text) else { return };
        let title = mine.title().to_owned();
        self.take_over(*kind, *id, stored, theirs);
        unsaved::drop_one(*kind, *id);
        match mine {
            Content::Order(order) => {
                let order = Order { title: words::numbered(&title, |_| false), ..*order };
                let fresh = OrderId::fresh();
                self.orders.list.update(|list| list.insert(0, OrderRecord { id: fresh, order }));
                if self.orders.open.get_untracked() == Some(OrderId(*id)) {
                    self.orders.open.set(Some(fresh));
                }
            }
            Content::Entry(entry) => self.log.take_in(LogId::fresh(), *entry),
            Content::Bench(bench) => self.saving.other_bench.set(Some(*bench)),
            Content::Piece(_) => {}
        }
        let said =
            if *kind == Kind::Bench { words::BENCH_ELSEWHERE.into() } else { words::both_kept(&title) };
        self.note(said);
    }

    async fn take_away(&self, Paper { kind, id, .. }: Paper, revision: u32) -> Result<(), StorageFault> {
        self.autosave.hold_no_more(id);
        match storage::take_off(kind, id, revision).await? {
            Some(photo) => {
                if !photo.is_undefined() {
                    self.photos.update_value(|photos| photos.push((id, photo)));
                }
                kept::forget(id);
                unsaved::drop_one(kind, id);
                self.ledger.update_value(|ledger| ledger.forget(kind, id));
            }
            None => {
                if let Some(stored) = storage::text(kind, id).await?
                    && let Ok(content) = Content::read(kind, &stored.text)
                {
                    let title = content.title().to_owned();
                    self.take_over(kind, id, &stored, content);
                    self.note(words::changed_and_stays(&title));
                }
            }
        }
        Ok(())
    }

    /// What is stored lies in the page from now on.
    pub(super) fn take_over(&self, kind: Kind, id: u64, stored: &Stored, content: Content) {
        let paper = Paper { kind, id, text: content.write().into() };
        self.ledger.update_value(|ledger| ledger.learn(paper, stored.revision));
        match content {
            Content::Order(order) => {
                let record = OrderRecord { id: OrderId(id), order: *order };
                self.orders.list.update(|list| match list.iter_mut().find(|other| other.id == record.id) {
                    Some(there) => *there = record,
                    None => list.push(record),
                });
            }
            Content::Bench(bench) => self.orders.bench.set(*bench),
            Content::Entry(entry) => self.log.take_in(LogId(id), *entry),
            Content::Piece(_) => {}
        }
    }

    /// What is stored cannot be read: it stays, and is told.
    pub(super) fn is_damaged(&self, kind: Kind, id: u64, text: String) {
        self.saving.damaged.update(|all| {
            all.retain(|one| (one.kind, one.id) != (kind, id));
            all.push(Damaged { kind, id, text });
        });
    }

    /// The page goes out of sight and may be ended without another word: writes what is not kept yet where it can be written at once,
    /// and begins to save it.
    pub(super) fn hide(&self) {
        if !self.read.get_value() {
            return;
        }
        let due = self.due();
        for deed in &due {
            if let Deed::Save(paper, known) = deed {
                let text = paper.text.to_string();
                unsaved::write(paper.kind, &unsaved::Unsaved { id: paper.id, known: *known, text });
            }
        }
        if !due.is_empty() {
            self.save_now();
        }
    }

    /// Everything as it stands, as kinds, numbers and texts; what cannot be read, as it is.
    pub fn texts(&self) -> Vec<(Kind, u64, String)> {
        let papers = untrack(|| self.papers());
        let texts = papers.into_iter().map(|paper| (paper.kind, paper.id, paper.text.to_string()));
        let damaged = self.saving.damaged.get_untracked();
        texts.chain(damaged.into_iter().map(|one| (one.kind, one.id, one.text))).collect()
    }

    /// Brings in what a back-up has; whether it is new here. Nothing that is here is overwritten.
    pub async fn bring(
        &self,
        id: u64,
        content: Content,
        photo: Option<&Uint8Array>,
    ) -> Result<bool, StorageFault> {
        let kind = content.kind();
        let there = |id| untrack(|| self.text_of(kind, id));
        let text = content.write();
        if there(id).is_some_and(|there| *there == *text) {
            return Ok(false);
        }
        if let Content::Bench(bench) = content {
            self.offer_bench(*bench);
            return Ok(true);
        }
        let (id, content) = match there(id) {
            None => (id, content),
            Some(_) => {
                let title = words::from_back_up(content.title());
                (backup::other_id(id, &content), content.titled(title))
            }
        };
        if there(id).is_some() {
            return Ok(false);
        }
        match content {
            Content::Order(order) => {
                self.orders.list.update(|list| list.push(OrderRecord { id: OrderId(id), order: *order }));
            }
            Content::Entry(entry) => self.log.take_in(LogId(id), *entry),
            Content::Bench(_) | Content::Piece(_) => {}
        }
        match photo {
            Some(photo) => storage::save_photo(id, photo).await.map(|()| true),
            None => Ok(true),
        }
    }

    /// A bench came from elsewhere: it lies here if nobody has written anything on the one that does, or else can be had instead.
    pub fn offer_bench(&self, bench: Bench) {
        let mine = self.orders.bench.get_untracked();
        if mine == Bench::default() {
            self.orders.bench.set(bench);
        } else if mine != bench && bench != Bench::default() {
            self.saving.other_bench.set(Some(bench));
        }
    }

    /// Takes the bench that came from elsewhere instead; this one can be had back likewise.
    pub fn take_other_bench(&self) {
        if let Some(other) = self.saving.other_bench.get_untracked() {
            self.saving.other_bench.set(Some(self.orders.bench.get_untracked()));
            self.orders.bench.set(other);
        }
    }

    /// Takes away for good what cannot be read.
    pub fn drop_damaged(&self, Damaged { kind, id, .. }: Damaged) {
        let keeper = *self;
        spawn_local(async move {
            let there = storage::text(kind, id).await.ok().flatten();
            if let Some(stored) = there
                && let Err(fault) = storage::take_off(kind, id, stored.revision).await
            {
                return keeper.note(words::not_kept(fault).into());
            }
            kept::forget(id);
            keeper.saving.damaged.update(|all| all.retain(|one| (one.kind, one.id) != (kind, id)));
        });
    }

    fn say(&self, state: SaveState) {
        if self.saving.papers.get_untracked() != state {
            self.saving.papers.set(state);
        }
    }

    fn note(&self, said: String) {
        self.announcer.say(said.clone());
        self.saving.note.set(said);
    }

    /// Tells the shelf and the other tabs.
    pub(super) fn tell(&self) {
        self.tabs.with_value(|tabs| tabs.iter().for_each(|tabs| tabs.tell(None)));
    }
}
