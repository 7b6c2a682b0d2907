//! The photo with its two frames, and what its white says of the light.

use super::state::AgainstState;
use crate::controls::photo::{MarkedPhoto, PhotoIntake, choosing, light_note, the_photo, white_row};
use crate::words;
use leptos::prelude::*;
use std::sync::Arc;

/// The photo, or the word that chooses one.
pub fn marked(state: AgainstState, intake: PhotoIntake) -> AnyView {
    let against = state.against;
    let photo =
        the_photo(move || against.photo.with(|fired| fired.as_ref().map(|fired| Arc::clone(&fired.photo))));
    let marks = Signal::derive(move || {
        against.photo.with(|fired| fired.as_ref().map(|fired| fired.marks()).unwrap_or_default())
    });
    let put = Callback::new(move |(at, frame)| {
        against.photo.update(|fired| fired.iter_mut().for_each(|fired| fired.put_mark(at, frame)));
    });
    let there = Signal::derive(move || photo.with(Option::is_some));
    view! {
        <div class="against-photo">
            {move || photo.get().map(|photo| view! { <MarkedPhoto photo marks put /> })}
            {choosing(intake, there, words::FIRED_PHOTO_HINT, || view! { <span class="aside">{words::DRAG_FRAMES}</span> }.into_any())}
        </div>
        <Show when=move || there.get()>{white(state)}</Show>
    }
    .into_any()
}

/// How bright the white is, and what it says.
fn white(state: AgainstState) -> AnyView {
    let said = RwSignal::new(None);
    let against = state.against;
    let note =
        move || state.shown.with(|shown| shown.as_ref().map(|shown| light_note(&shown.light, shown.clipped)));
    view! {
        <div class="against-light">
            {white_row(move || against.white.get(), move |white| against.white.set(white), said)}
            <p class="refused" role="alert">{move || said.get()}</p>
            {note}
        </div>
    }
    .into_any()
}
