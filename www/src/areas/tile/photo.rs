//! The photo that colors are taken from: chosen or dropped, shown with its frames, or let be.

use super::state::TileBench;
use crate::controls::photo::{MarkedPhoto, PhotoIntake, choosing, light_note, the_photo, white_row};
use crate::words;
use leptos::prelude::*;
use std::sync::Arc;

/// The photo with its frames, or the word that chooses one.
pub fn photo_part(bench: TileBench, intake: PhotoIntake) -> AnyView {
    let photo =
        the_photo(move || bench.draft.with(|draft| draft.photo.as_ref().map(|one| Arc::clone(&one.photo))));
    let shown = move || {
        photo.get().map(|photo| {
            let marks = Signal::derive(move || bench.draft.with(|draft| draft.marks()));
            let smaller = photo.smaller_from.map(words::made_smaller);
            view! {
                <MarkedPhoto
                    photo
                    marks
                    put=Callback::new(move |(at, frame)| bench.draft.update(|draft| draft.put_mark(at, frame)))
                />
                <p class="aside">{words::DRAG_FRAMES} " " {smaller}</p>
            }
        })
    };
    let there = Signal::derive(move || photo.with(Option::is_some));
    view! {
        <div class="tile-photo">
            {shown} {choosing(intake, there, words::PHOTO_HINT, move || no_photo(bench))}
        </div>
    }
    .into_any()
}

/// What lets the photo be.
fn no_photo(bench: TileBench) -> AnyView {
    let none = move |_| bench.draft.update(|draft| draft.photo = None);
    view! {
        <button class="word" on:click=none>
            {words::NO_PHOTO}
        </button>
    }
    .into_any()
}

/// How bright the white in the photo is, and what it says of the light; nothing without a photo.
pub fn white_part(bench: TileBench, said: RwSignal<Option<String>>) -> impl IntoView {
    let there = move || bench.draft.with(|draft| draft.photo.is_some());
    let get = move || bench.draft.with(|draft| draft.photo_white);
    let set = move |white| bench.draft.update(|draft| draft.photo_white = white);
    view! {
        <Show when=there>
            {white_row(get, set, said)}
            {move || light_said(bench)}
        </Show>
    }
}

/// What the white says of the light, or why it says nothing.
fn light_said(bench: TileBench) -> Option<AnyView> {
    let shown = bench.on_photo.get()?;
    Some(light_note(&shown.light, shown.clipped()))
}
