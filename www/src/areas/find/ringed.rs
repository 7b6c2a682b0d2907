//! The color ringed in a photo.

use super::state::FindState;
use crate::controls::photo::{MarkedPhoto, PhotoIntake, choosing, the_photo};
use crate::state::finding::Ringed;
use crate::words;
use dappledome::base::notice::Notice;
use dappledome::photo::light::Light;
use dappledome::photo::reading::{Reading, read};
use dappledome::recipe::limits::PHOTO_WHITE;
use leptos::prelude::*;
use std::sync::Arc;

/// What brings a photo in, and says what is ringed in it.
#[derive(Clone, Copy)]
pub struct Ring {
    state: FindState,
    said: RwSignal<Option<String>>,
}

impl Ring {
    /// For this area.
    pub fn new(state: FindState) -> Self {
        Self { state, said: RwSignal::new(None) }
    }

    /// Takes a photo in.
    pub fn bring(&self, ringed: Ringed) {
        self.state.finding.photo.set(Some(ringed));
        self.look();
    }

    fn change(&self, change: impl FnOnce(&mut Ringed)) {
        self.state.finding.photo.update(|photo| {
            if let Some(photo) = photo {
                change(photo);
            }
        });
        self.look();
    }

    /// Looks for what is ringed.
    fn look(&self) {
        let photo = self.state.finding.photo;
        let Some(seen) = photo.with_untracked(|photo| photo.as_ref().and_then(seen)) else { return };
        let white = photo.with_untracked(|photo| photo.as_ref().is_some_and(|photo| photo.white.is_some()));
        self.said.set(Some(match seen {
            Ok(reading) => {
                self.state.want(Some(reading.color));
                words::ringed(reading.spread, white)
            }
            Err(notice) => notice.to_string(),
        }));
    }
}

/// What is ringed; none if the photo has no pixels.
fn seen(ringed: &Ringed) -> Option<Result<Reading, Notice>> {
    let pixels = ringed.photo.pixels()?;
    let (light, white) = match &ringed.white {
        None => (Light::as_written(), 1.0),
        Some(white) => match Light::on(&pixels, white) {
            Ok(light) => (light, PHOTO_WHITE.usual),
            Err(notice) => return Some(Err(notice)),
        },
    };
    Some(read(&pixels, (words::RING_MARK, &ringed.ring), &light, white))
}

/// The photo with its ring, or the word that chooses one.
pub fn ring_part(ring: Ring, intake: PhotoIntake) -> AnyView {
    let photo = ring.state.finding.photo;
    let shown = the_photo(move || photo.with(|photo| photo.as_ref().map(|photo| Arc::clone(&photo.photo))));
    let marks =
        Signal::derive(move || photo.with(|photo| photo.as_ref().map(Ringed::marks).unwrap_or_default()));
    let put = Callback::new(move |(at, frame)| ring.change(|photo| photo.put_mark(at, frame)));
    let there = Signal::derive(move || shown.with(Option::is_some));
    view! {
        <div class="find-photo">
            {move || shown.get().map(|photo| view! { <MarkedPhoto photo marks put /> })}
            {choosing(intake, there, words::RING_HINT, move || beside(ring))}
            <p class="aside" role="status">{move || ring.said.get()}</p>
        </div>
    }
    .into_any()
}

/// What marks a white, and what lets the photo be.
fn beside(ring: Ring) -> AnyView {
    let photo = ring.state.finding.photo;
    let marked = move || photo.with(|photo| photo.as_ref().is_some_and(|photo| photo.white.is_some()));
    let none = move |_| {
        photo.set(None);
        ring.said.set(None);
    };
    view! {
        <button class="word" on:click=move |_| ring.change(Ringed::turn_white)>
            {move || if marked() { words::NO_WHITE } else { words::MARK_WHITE }}
        </button>
        <button class="word" on:click=none>
            {words::NO_PHOTO}
        </button>
    }
    .into_any()
}
