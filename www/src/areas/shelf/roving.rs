//! A list of domes in staggered rows: one stop for the Tab key, arrows from one to the next.

use crate::dom::focus;
use crate::model::ids::PieceId;
use crate::model::records::Card;
use leptos::html;
use leptos::prelude::*;
use std::collections::HashMap;
use web_sys::KeyboardEvent;

/// Which item of a list it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DomeKey {
    /// A card of the maker's: a piece, and the time of its last change. A piece that was changed has another card.
    Card(PieceId, u64),
    /// A recipe to start from, by its place.
    Start(usize),
}

impl DomeKey {
    /// The key of a card.
    pub fn of_card(card: &Card) -> Self {
        Self::Card(card.id, card.changed as u64)
    }
}

/// The elements of an item.
#[derive(Clone, Copy)]
pub struct Spot {
    /// The item itself, by which rows are measured.
    pub item: NodeRef<html::Li>,
    /// Its dome, which takes the focus.
    pub dome: NodeRef<html::Button>,
}

/// A list of domes.
#[derive(Clone, Copy)]
pub struct Roving {
    keys: Signal<Vec<DomeKey>>,
    /// The item that had the focus last.
    last: RwSignal<Option<DomeKey>>,
    stop: Memo<Option<DomeKey>>,
    spots: StoredValue<HashMap<DomeKey, Spot>>,
}

impl Roving {
    /// A list of these items. Tab reaches the one that had the focus last, or else the `usual` one, or else the first.
    pub fn new(keys: Signal<Vec<DomeKey>>, usual: Signal<Option<DomeKey>>) -> Self {
        let last = RwSignal::new(None);
        let stop = Memo::new(move |_| {
            keys.with(|keys| {
                let last = last.get().filter(|last| keys.contains(last));
                last.or(usual.get()).or(keys.first().copied())
            })
        });
        Self { keys, last, stop, spots: StoredValue::new(HashMap::new()) }
    }

    /// Gives an item its place among the others, until the present owner is cleaned up.
    pub fn join(&self, key: DomeKey) -> Spot {
        let spots = self.spots;
        let spot = Spot { item: NodeRef::new(), dome: NodeRef::new() };
        spots.update_value(|spots| {
            spots.insert(key, spot);
        });
        on_cleanup(move || {
            // The whole list may be going.
            let _ = spots.try_update_value(|spots| spots.remove(&key));
        });
        spot
    }

    /// Whether Tab reaches this item.
    pub fn is_stop(&self, key: DomeKey) -> bool {
        self.stop.get() == Some(key)
    }

    /// From now on Tab reaches this item.
    pub fn stop_at(&self, key: DomeKey) {
        self.last.set(Some(key));
    }

    /// Puts the focus on the item that Tab reaches, if the list is still there.
    pub fn focus_stop(&self) {
        self.focus(self.stop.try_get_untracked().flatten());
    }

    /// Puts the focus on the last item, if the list is still there.
    pub fn focus_end(&self) {
        self.focus(self.keys.try_with_untracked(|keys| keys.last().copied()).flatten());
    }

    /// Goes from an item where a key leads, if it leads anywhere.
    pub fn walk(&self, from: DomeKey, event: &KeyboardEvent) {
        let keys = self.keys.get_untracked();
        let Some(at) = keys.iter().position(|key| *key == from) else { return };
        if let Some(to) = lead(&event.key(), at, keys.len() - 1, || self.row(&keys)) {
            self.focus(Some(keys[to]));
            event.prevent_default();
        }
    }

    fn focus(&self, key: Option<DomeKey>) {
        let spot = key.and_then(|key| self.spots.with_value(|spots| spots.get(&key).copied()));
        let dome = spot.and_then(|spot| spot.dome.get_untracked());
        focus::focus(dome.as_deref().map(AsRef::as_ref));
    }

    /// As many as stand in the first row.
    fn row(&self, keys: &[DomeKey]) -> usize {
        self.spots.with_value(|spots| {
            let tops = keys.iter().map(|key| Some(spots.get(key)?.item.get_untracked()?.offset_top()));
            let mut tops = tops.peekable();
            let first = tops.peek().copied();
            tops.take_while(|top| Some(*top) == first).count()
        })
    }
}

/// Where a key leads from a place; nowhere if it is none that leads.
fn lead(key: &str, at: usize, last: usize, row: impl FnOnce() -> usize) -> Option<usize> {
    match key {
        "ArrowRight" => Some((at + 1).min(last)),
        "ArrowLeft" => Some(at.saturating_sub(1)),
        "ArrowDown" => Some((at + row()).min(last)),
        "ArrowUp" => Some(at.checked_sub(row()).unwrap_or(at)),
        "Home" => Some(0),
        "End" => Some(last),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_lead_to_the_neighbors_and_to_the_ends() {
        let lead = |key, at| lead(key, at, 9, || 4);
        assert_eq!([lead("ArrowRight", 3), lead("ArrowRight", 9)], [Some(4), Some(9)]);
        assert_eq!([lead("ArrowLeft", 3), lead("ArrowLeft", 0)], [Some(2), Some(0)]);
        assert_eq!([lead("ArrowDown", 3), lead("ArrowDown", 7)], [Some(7), Some(9)]);
        assert_eq!([lead("ArrowUp", 7), lead("ArrowUp", 3)], [Some(3), Some(3)], "in the first row it stays");
        assert_eq!([lead("Home", 5), lead("End", 5), lead("x", 5)], [Some(0), Some(9), None]);
    }

    #[test]
    fn tab_reaches_the_one_that_had_the_focus_last_as_long_as_it_is_there() {
        Owner::new().with(|| {
            let keys = RwSignal::new((0..4).map(DomeKey::Start).collect::<Vec<_>>());
            let usual = RwSignal::new(None);
            let roving = Roving::new(keys.into(), usual.into());
            let stop = || roving.stop.get_untracked();
            assert_eq!(stop(), Some(DomeKey::Start(0)));
            usual.set(Some(DomeKey::Start(2)));
            assert_eq!(stop(), Some(DomeKey::Start(2)));
            roving.stop_at(DomeKey::Start(3));
            assert_eq!(stop(), Some(DomeKey::Start(3)));
            keys.update(|keys| keys.truncate(3));
            assert_eq!(stop(), Some(DomeKey::Start(2)));
            usual.set(None);
            assert_eq!(stop(), Some(DomeKey::Start(0)));
            keys.set(Vec::new());
            assert_eq!(stop(), None);
        });
    }
}
