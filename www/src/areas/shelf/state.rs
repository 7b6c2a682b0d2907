//! What the parts of the shelf share: the cards, which of them are found and on the page.

use super::roving::{DomeKey, Roving};
use super::search::has_words;
use crate::model::faults::StorageFault;
use crate::model::ids::PieceId;
use crate::model::records::Card;
use crate::model::search::folded;
use crate::services::autosave::Autosave;
use crate::services::storage;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// So many pieces come on the page at once.
const AT_ONCE: usize = 120;

/// The cards, once they are read.
type Cards = Option<Result<Vec<Card>, StorageFault>>;

/// What the parts of the shelf share.
#[derive(Clone, Copy)]
pub struct ShelfState {
    /// The list of the pieces.
    pub pieces: Roving,
    pub(super) piece: Workpiece,
    pub(super) nav: Nav,
    pub(super) saving: Saving,
    pub(super) announcer: Announcer,
    pub(super) autosave: Autosave,
    cards: RwSignal<Cards>,
    /// What is searched, folded.
    search: RwSignal<String>,
    found: Memo<Vec<Card>>,
    /// How many of them are on the page so far; more come as the end of the list comes into sight.
    shown: RwSignal<usize>,
}

impl ShelfState {
    /// A shelf that is not read yet.
    pub fn new() -> Self {
        let piece = expect_context::<Workpiece>();
        let (cards, search) = (RwSignal::new(None), RwSignal::new(String::new()));
        let found = Memo::new(move |_| search.with(|search| found(&cards.read(), search)));
        let shown = RwSignal::new(AT_ONCE);
        let keys = Memo::new(move |_| keys_of(&found.read(), shown.get()));
        let on_table = move || card_of(&keys.read(), piece.id.get());
        Self {
            pieces: Roving::new(keys.into(), Signal::derive(on_table)),
            piece,
            nav: expect_context(),
            saving: expect_context(),
            announcer: expect_context(),
            autosave: expect_context(),
            cards,
            search,
            found,
            shown,
        }
    }

    /// Reads the cards, and again whenever the shelf's contents change.
    pub fn keep_read(self) {
        Effect::new(move || {
            self.saving.news.track();
            spawn_local(self.read());
        });
    }

    /// Reads the cards; the first time the focus goes to the piece on the table, or else to the first one.
    async fn read(self) {
        let cards = storage::cards().await;
        // The shelf may have been closed meanwhile.
        let Some(first) = self.cards.try_with_untracked(Option::is_none) else { return };
        self.cards.set(Some(cards));
        if first {
            request_animation_frame(move || self.pieces.focus_stop());
        }
        self.say_found();
    }

    /// The cards that are on the page.
    pub fn on_page(&self) -> Vec<Card> {
        self.found.read().iter().take(self.shown.get()).cloned().collect()
    }

    /// Brings more cards on the page, if more are found.
    pub fn show_more(&self) {
        if self.found.with_untracked(Vec::len) > self.shown.get_untracked() {
            self.shown.update(|shown| *shown += AT_ONCE);
        }
    }

    /// Brings all cards on the page.
    pub fn show_all(&self) {
        self.shown.set(usize::MAX);
    }

    /// Looks for pieces that have these words.
    pub fn look_for(&self, text: &str) {
        self.search.set(folded(text));
        self.say_found();
    }

    /// How many pieces there are, or why none.
    pub fn count(&self) -> String {
        let searched = !self.search.read().is_empty();
        let count = self.found.read().len();
        self.cards.with(|cards| match cards {
            None => words::READING.into(),
            Some(Err(fault)) => words::not_kept(*fault).into(),
            Some(Ok(cards)) if cards.is_empty() => words::NO_PIECES.into(),
            Some(Ok(_)) => words::found(count, searched),
        })
    }

    /// How many pieces there are, found or not, followed.
    pub fn all_pieces(&self) -> usize {
        self.cards.with(|cards| all(cards).count())
    }

    /// The name of a piece.
    pub fn title(&self, id: PieceId) -> String {
        let title = |cards: &Cards| all(cards).find(|card| card.id == id).map(|card| card.title.clone());
        self.cards.try_with_untracked(title).flatten().unwrap_or_default()
    }

    /// Whether a piece has this name.
    pub fn has_title(&self, title: &str) -> bool {
        let taken = |cards: &Cards| all(cards).any(|card| card.title == title);
        self.cards.try_with_untracked(taken).unwrap_or_default()
    }

    fn say_found(&self) {
        let searched = self.search.with_untracked(|search| !search.is_empty());
        self.announcer.say(words::found(self.found.with_untracked(Vec::len), searched));
    }
}

fn all(cards: &Cards) -> impl Iterator<Item = &Card> {
    cards.iter().flatten().flatten()
}

fn found(cards: &Cards, search: &str) -> Vec<Card> {
    all(cards).filter(|card| has_words(card, search)).cloned().collect()
}

fn keys_of(cards: &[Card], shown: usize) -> Vec<DomeKey> {
    cards.iter().take(shown).map(DomeKey::of_card).collect()
}

fn card_of(keys: &[DomeKey], id: Option<PieceId>) -> Option<DomeKey> {
    keys.iter().copied().find(|key| matches!(key, DomeKey::Card(of, _) if Some(*of) == id))
}
