//! The molds that the maker has. Kept in this browser; no part of any piece.

use crate::dom::local;
use crate::words;
use dappledome::recipe::molds::{MOST_MOLDS, OwnMold, invented, read, write};
use leptos::prelude::*;

const OWN: &str = "dappledome.molds";

/// The molds on the shelf.
#[derive(Clone, Copy, Debug)]
pub struct Molds {
    /// The maker's own; none yet at first.
    own: RwSignal<Vec<OwnMold>>,
    /// The one that was deleted last, and where it stood.
    gone: RwSignal<Option<(usize, OwnMold)>>,
}

impl Molds {
    /// As they were kept in this browser. Molds that make no sense any more are as if they had never been written down.
    pub fn kept() -> Self {
        Self::new(read(&local::kept(OWN)).unwrap_or_default())
    }

    fn new(own: Vec<OwnMold>) -> Self {
        Self { own: RwSignal::new(own), gone: RwSignal::new(None) }
    }

    /// Whether none is the maker's own and invented ones stand there, followed.
    pub fn are_invented(&self) -> bool {
        self.own.read().is_empty()
    }

    /// How many stand there, followed.
    pub fn count(&self) -> usize {
        if self.are_invented() { invented().len() } else { self.own.read().len() }
    }

    /// The maker's own, followed.
    pub fn own(&self) -> Vec<OwnMold> {
        self.own.get()
    }

    /// The one at a place, followed.
    pub fn at(&self, place: usize) -> Option<OwnMold> {
        if self.are_invented() {
            invented().into_iter().nth(place)
        } else {
            self.own.read().get(place).cloned()
        }
    }

    /// The name of the one that was deleted last, followed.
    pub fn gone(&self) -> Option<String> {
        self.gone.read().as_ref().map(|(_, mold)| mold.name.clone())
    }

    /// Writes another one down.
    ///
    /// # Errors
    /// That there is no room for it, or what is wrong with it.
    pub fn add(&self, mold: OwnMold) -> Result<(), String> {
        self.edit(|own| own.push(mold))
    }

    /// Changes an own one, if it still is a mold then.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn change(&self, place: usize, change: impl FnOnce(&mut OwnMold)) -> Result<(), String> {
        self.edit(|own| {
            if let Some(mold) = own.get_mut(place) {
                change(mold);
            }
        })
    }

    /// Takes an own one off the shelf.
    pub fn delete(&self, place: usize) {
        let mold = self.own.with_untracked(|own| own.get(place).cloned());
        // Fewer molds are never too many, and none gets worse by it.
        let _ = self.edit(|own| {
            own.remove(place);
        });
        self.gone.set(mold.map(|mold| (place, mold)));
    }

    /// Puts the one back that was deleted last.
    ///
    /// # Errors
    /// That there is no room for it.
    pub fn put_back(&self) -> Result<(), String> {
        let Some((place, mold)) = self.gone.get_untracked() else { return Ok(()) };
        self.edit(|own| own.insert(place.min(own.len()), mold))?;
        self.gone.set(None);
        Ok(())
    }

    fn edit(&self, change: impl FnOnce(&mut Vec<OwnMold>)) -> Result<(), String> {
        let mut own = self.own.get_untracked();
        change(&mut own);
        if own.len() > MOST_MOLDS {
            return Err(words::TOO_MANY_MOLDS.into());
        }
        if let Some(fault) = own.iter().flat_map(OwnMold::faults).next() {
            return Err(fault.to_string());
        }
        local::keep(OWN, &write(&own));
        self.own.set(own);
        Ok(())
    }
}
