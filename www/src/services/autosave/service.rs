//! Keeps what lies on the table, one piece after the other.

use super::kept;
use super::queue::{Decision, Job, Next, SaveQueue};
use super::unsaved::{self, Unsaved};
use crate::dom::clock;
use crate::dom::timer::Timer;
use crate::model::demos::demos;
use crate::model::faults::StorageFault;
use crate::model::ids::{FIRST_SEED, PanelId, PieceId};
use crate::model::records::{Held, SaveState, Stored, Version};
use crate::services::storage;
use crate::services::tabs::Tabs;
use crate::services::thumbnails::Thumbnails;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::keep::content::Kind;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;

/// How long until saving is tried again where it failed.
const RETRY: Duration = Duration::from_secs(5);

/// Keeps what lies on the table.
#[derive(Clone, Copy)]
pub struct Autosave {
    pub(super) piece: Workpiece,
    pub(super) saving: Saving,
    pub(super) nav: Nav,
    pub(super) announcer: Announcer,
    pub(super) tabs: StoredValue<Option<Tabs>, LocalStorage>,
    thumbnails: Thumbnails,
    queue: StoredValue<SaveQueue>,
    pub(super) timer: Timer,
    pub(super) held: StoredValue<Held, LocalStorage>,
    /// The pieces that seem to be kept while that is in doubt.
    unproved: StoredValue<Vec<PieceId>>,
}

impl Autosave {
    /// One that keeps nothing yet. Takes the contexts of the page and the thumbnails.
    pub(super) fn of_contexts() -> Self {
        Self {
            piece: expect_context(),
            saving: expect_context(),
            nav: expect_context(),
            announcer: expect_context(),
            tabs: StoredValue::new_local(None),
            thumbnails: expect_context(),
            queue: StoredValue::new(SaveQueue::default()),
            timer: Timer::new(),
            held: StoredValue::new_local(Held::new()),
            unproved: StoredValue::new(Vec::new()),
        }
    }

    /// Saves what lies on the table, and whatever else waits.
    pub fn save_now(&self) {
        if self.queue(SaveQueue::begin) {
            spawn_local((*self).save_all());
        }
    }

    /// Puts a piece from the shelf on the table.
    pub fn take_up(&self, id: PieceId, stored: &Stored, piece: &Piece) {
        self.queue(|queue| queue.take_up(id, stored, piece));
        self.piece.take_up(&words::opening(&piece.recipe.title), Some(id), piece);
        self.saving.note.set(String::new());
    }

    /// A piece was taken off the shelf in this tab: on the table it stays as it is until it is changed.
    pub fn forget(&self, id: PieceId) {
        let text = self.is_on_table(id).then(|| self.piece.version().piece.write());
        self.queue(|queue| queue.forget(id, text.as_deref()));
        self.hold_no_more(id.0);
        kept::forget(id.0);
        unsaved::forget(id);
        if text.is_some() {
            self.say(SaveState::Away);
        }
        self.changed_on_shelf(id);
    }

    /// What has this number was taken away: in doubt it is not put back.
    pub fn hold_no_more(&self, id: u64) {
        self.held.update_value(|held| held.retain(|(other, _)| *other != id));
    }

    /// A piece came back on the shelf in this tab.
    pub fn back_again(&self, id: PieceId) {
        self.changed_on_shelf(id);
        if self.is_on_table(id) {
            let autosave = *self;
            spawn_local(async move {
                if let Ok(Some(stored)) = storage::piece(id).await {
                    autosave.queue(|queue| queue.know(id, &stored));
                    autosave.save_now();
                }
            });
        }
    }

    /// Tells the shelf, and the other tabs, that a piece was changed or taken away.
    pub fn changed_on_shelf(&self, id: PieceId) {
        self.tell(Some(id));
    }

    /// Tells the shelf, and the other tabs, that there may be many new pieces.
    pub fn many_on_shelf(&self) {
        self.tell(None);
    }

    /// The piece on the table has changed, or is another one.
    pub(super) fn changed(&self, now: Version) {
        if let Some(wait) = self.queue(|queue| queue.changed(now, clock::now())) {
            self.save_in(Duration::from_secs_f64(wait / 1000.0));
        }
    }

    /// The page goes out of sight and may be ended without another word: writes what is not kept yet where it can be written
    /// at once, and begins to save it.
    pub(super) fn hide(&self) {
        let Version { id, piece } = self.piece.version();
        let on_table = id.map(|id| Job { id, piece });
        let others = self.queue(|queue| queue.waiting_but(id));
        let written = on_table.iter().chain(&others).filter(|job| self.write_down(job)).count();
        if written > 0 {
            self.save_now();
        }
    }

    /// Writes a piece that is not kept where it can be written at once; whether there was need to.
    fn write_down(&self, Job { id, piece }: &Job) -> bool {
        let (id, text, untouched) = (*id, piece.write(), self.is_untouched(piece));
        let known = match self.queue(|queue| queue.decide(id, &text, untouched)) {
            Decision::Save { known } => known,
            Decision::Say(SaveState::Since(_)) if storage::doubt().is_some() => None,
            Decision::Say(_) => return false,
        };
        unsaved::write(Kind::Piece, &Unsaved { id: id.0, known, text });
        true
    }

    /// The pieces that are held while it is in doubt whether they are kept.
    pub fn held_pieces(&self) -> Vec<(PieceId, Stored)> {
        let pieces = |held: &Held| {
            let pieces = held.iter().filter(|(_, whole)| whole.kind == Kind::Piece);
            pieces.map(|(id, whole)| (PieceId(*id), storage::read_stored(&whole.text))).collect()
        };
        self.held.with_value(pieces)
    }

    /// Saves after so long, and not when it was to be saved before.
    pub(super) fn save_in(&self, time: Duration) {
        let autosave = *self;
        self.timer.start(time, move || autosave.save_now());
    }

    /// The piece on the table has another number from now on, but not by a change.
    pub(super) fn renumber(&self, fresh: PieceId) {
        self.queue(|queue| queue.renumber(fresh));
        self.piece.id.set(Some(fresh));
    }

    pub(super) fn is_on_table(&self, id: PieceId) -> bool {
        self.piece.id.get_untracked() == Some(id)
    }

    pub(super) fn queue<T>(&self, what: impl FnOnce(&mut SaveQueue) -> T) -> T {
        what(&mut self.queue.write_value())
    }

    fn tell(&self, id: Option<PieceId>) {
        self.saving.tell();
        self.tabs.with_value(|tabs| tabs.iter().for_each(|tabs| tabs.tell(id.map(|id| id.0))));
    }

    /// Whether a piece is a recipe that came with the program and nothing else.
    fn is_untouched(&self, piece: &Piece) -> bool {
        self.piece.origin.with_untracked(Option::is_none)
            && piece.seed == FIRST_SEED
            && piece.sisters.is_empty()
            && demos().contains(&piece.recipe)
    }

    async fn save_all(self) {
        if let Err(fault) = self.save_waiting().await {
            self.say(SaveState::Not(fault));
            self.save_in(RETRY);
        }
    }

    /// Saves what waits. In doubt it counts as saved only once it is proved.
    async fn save_waiting(&self) -> Result<(), StorageFault> {
        let held = self.hold().await;
        if held.is_err() {
            self.queue(SaveQueue::go_on);
        }
        held?;
        while let Some(job) = self.queue(SaveQueue::next) {
            if let Err(fault) = self.save(&job).await {
                self.queue(|queue| queue.failed(job));
                return Err(fault);
            }
        }
        if storage::doubt().is_none() {
            return Ok(());
        }
        self.queue(SaveQueue::pause);
        let proved = self.prove().await;
        if self.queue(SaveQueue::go_on) && proved.is_ok() {
            self.save_in(Duration::ZERO);
        }
        proved?;
        for id in self.unproved.try_update_value(std::mem::take).unwrap_or_default() {
            unsaved::drop_one(Kind::Piece, id.0);
        }
        self.say_how_table_is_kept();
        self.many_on_shelf();
        Ok(())
    }

    fn say_how_table_is_kept(&self) {
        let Version { id: Some(id), piece } = self.piece.version() else { return };
        if let Some(state) = self.queue(|queue| queue.state_of(id, &piece.write())) {
            self.say_of(id, &piece, state);
        }
    }

    async fn save(&self, Job { id, piece }: &Job) -> Result<(), StorageFault> {
        let (id, text, untouched) = (*id, piece.write(), self.is_untouched(piece));
        let known = match self.queue(|queue| queue.decide(id, &text, untouched)) {
            Decision::Say(state) => {
                self.say_of(id, piece, state);
                return Ok(());
            }
            Decision::Save { known } => known,
        };
        let now = clock::now();
        storage::ask_to_last();
        let saved = storage::save(id, known, piece, &text, now).await?;
        let on_table = self.is_on_table(id);
        match self.queue(|queue| queue.outcome(id, &text, now, saved, on_table)) {
            Next::Kept => {
                self.drop_written(id);
                self.saved(id, piece, now);
            }
            Next::AsNew => self.keep_as_new(id, piece).await?,
            Next::AsSecond => self.keep_as_new(id, &second(piece)).await?,
            Next::Ask(time) => self.ask(time),
        }
        Ok(())
    }

    /// Keeps a piece under another number than it had; if it lies on the table, so does that one.
    async fn keep_as_new(&self, id: PieceId, piece: &Piece) -> Result<(), StorageFault> {
        let (fresh, now, text) = (PieceId::fresh(), clock::now(), piece.write());
        storage::save(fresh, None, piece, &text, now).await?;
        self.queue(|queue| queue.kept_as(id, fresh, &text, now));
        self.drop_written(id);
        if self.is_on_table(id) {
            self.renumber(fresh);
        }
        self.saved(fresh, piece, now);
        Ok(())
    }

    /// A piece is kept: what was written down of it is dropped, in doubt only once it is proved.
    fn drop_written(&self, id: PieceId) {
        if storage::doubt().is_none() {
            unsaved::drop_one(Kind::Piece, id.0);
        } else {
            self.unproved.update_value(|unproved| unproved.push(id));
        }
    }

    fn saved(&self, id: PieceId, piece: &Piece, now: f64) {
        self.say_of(id, piece, SaveState::Since(now));
        self.changed_on_shelf(id);
        self.thumbnails.take();
        kept::note(id.0);
    }

    /// Says how what lies on the table is kept. In doubt the warning stays, whatever seems to be kept.
    pub(super) fn say(&self, state: SaveState) {
        if storage::doubt().is_none() || matches!(state, SaveState::Not(_) | SaveState::Conflict(_)) {
            self.saving.say(state, self.piece.version());
        }
    }

    /// Says how a piece is kept that stood so, if it lies on the table. In doubt the warning stays.
    fn say_of(&self, id: PieceId, piece: &Piece, state: SaveState) {
        if self.is_on_table(id) && storage::doubt().is_none() {
            self.saving.say(state, Version { id: Some(id), piece: piece.clone() });
            if state != SaveState::Untouched {
                unsaved::remember(id);
            }
        }
    }

    /// Asks what is to become of a piece that two tabs have changed: once, not at every further change.
    fn ask(&self, time: f64) {
        if !matches!(self.saving.state.get_untracked(), SaveState::Conflict(_)) {
            self.nav.open_panel(PanelId::CONFLICT);
        }
        self.say(SaveState::Conflict(time));
    }
}

/// The piece under the name that tells it from another of its name.
pub(super) fn second(piece: &Piece) -> Piece {
    let mut piece = piece.clone();
    piece.recipe.title = words::numbered(&piece.recipe.title, |_| false);
    piece
}
