//! The photo that colors are taken from: chosen or dropped, shown with its frames, or let be.

use super::state::TileBench;
use crate::controls::number::NumberRow;
use crate::controls::photo::MarkedPhoto;
use crate::fields::types::Unit;
use crate::services::photo::{LONGEST, PhotoReader};
use crate::state::announcer::Announcer;
use crate::words;
use dappledome::recipe::limits::PHOTO_WHITE;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use web_sys::{DragEvent, File};

/// Who brings a photo in, and what there is to say of it.
#[derive(Clone, Copy)]
pub struct PhotoIntake {
    bench: TileBench,
    reader: PhotoReader,
    announcer: Announcer,
    field: NodeRef<html::Input>,
    /// What is being done, or went wrong.
    said: RwSignal<Option<String>>,
}

impl PhotoIntake {
    /// For this bench. Takes contexts of the page.
    pub fn new(bench: TileBench) -> Self {
        let said = RwSignal::new(None);
        Self { bench, reader: expect_context(), announcer: expect_context(), field: NodeRef::new(), said }
    }

    /// Takes a file that was dropped, unless it is one of ours, which the page opens.
    pub fn take_dropped(&self, event: &DragEvent) {
        let file = event.data_transfer().and_then(|dropped| dropped.files()).and_then(|files| files.get(0));
        if let Some(file) = file.filter(|file| !file.name().ends_with(".json")) {
            event.prevent_default();
            event.stop_propagation();
            self.take(file);
        }
    }

    fn take_chosen(&self) {
        let Some(field) = self.field.get_untracked() else { return };
        let file = field.files().and_then(|files| files.get(0));
        // Else choosing the same file twice would go unnoticed.
        field.set_value("");
        file.into_iter().for_each(|file| self.take(file));
    }

    fn take(&self, file: File) {
        let Self { bench, reader, announcer, said, .. } = *self;
        said.set(Some(words::PHOTO_COMES.into()));
        spawn_local(async move {
            let wrong = match reader.read(&file, LONGEST).await {
                Err(fault) => Some(words::photo_fault(&file.name(), fault)),
                Ok(photo) => {
                    announcer.say(words::photo_opened(&photo.name));
                    bench.draft.update(|draft| draft.take_photo(photo));
                    None
                }
            };
            // The area may have been closed meanwhile.
            let _ = said.try_set(wrong);
        });
    }

    fn choose(&self) {
        self.field.get_untracked().iter().for_each(|field| field.click());
    }
}

/// The photo with its frames, or the word that chooses one.
pub fn photo_part(intake: PhotoIntake) -> AnyView {
    let bench = intake.bench;
    // A frame that is dragged does not draw the photo anew.
    let photo = Memo::new_with_compare(
        move |_| bench.draft.with(|draft| draft.photo.as_ref().map(|one| Arc::clone(&one.photo))),
        |one, other| match (one, other) {
            (Some(Some(one)), Some(Some(other))) => !Arc::ptr_eq(one, other),
            (Some(None), Some(None)) => false,
            _ => true,
        },
    );
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
    view! {
        <div class="tile-photo">
            {shown} {words_of(intake, Signal::derive(move || photo.with(Option::is_some)))}
            <p class="aside" role="status">
                {move || intake.said.get()}
            </p>
            <input
                class="photo-field"
                type="file"
                accept="image/*"
                hidden
                aria-label=words::CHOOSE_PHOTO
                node_ref=intake.field
                on:change=move |_| intake.take_chosen()
            />
        </div>
    }
    .into_any()
}

/// What chooses a photo, or another one, or none.
fn words_of(intake: PhotoIntake, there: Signal<bool>) -> impl IntoView {
    let word = move || if there.get() { words::ANOTHER_PHOTO } else { words::CHOOSE_PHOTO };
    let none = move |_| intake.bench.draft.update(|draft| draft.photo = None);
    view! {
        <p class="photo-words">
            <button class="word" on:click=move |_| intake.choose()>
                {word}
            </button>
            <Show
                when=move || there.get()
                fallback=|| view! { <span class="second">{words::PHOTO_HINT}</span> }
            >
                <button class="word" on:click=none>
                    {words::NO_PHOTO}
                </button>
            </Show>
        </p>
    }
}

/// How bright the white in the photo is, and what it says of the light; nothing without a photo.
pub fn white_part(bench: TileBench, said: RwSignal<Option<String>>) -> impl IntoView {
    let there = move || bench.draft.with(|draft| draft.photo.is_some());
    let value = Signal::derive(move || bench.draft.with(|draft| Some(draft.photo_white)));
    let change = move |value: Option<f64>| {
        bench.draft.update(|draft| draft.photo_white = value.unwrap_or(PHOTO_WHITE.usual));
    };
    view! {
        <Show when=there>
            <dl class="kiln-numbers">
                <NumberRow
                    label=words::MARKED_WHITE
                    unit=Unit::Number
                    limit=PHOTO_WHITE
                    value
                    set=Callback::new(change)
                    said
                />
            </dl>
            {move || light_said(bench)}
        </Show>
    }
}

/// What the white says of the light, or why it says nothing.
fn light_said(bench: TileBench) -> Option<AnyView> {
    let shown = bench.on_photo.get()?;
    let clipped = shown.clipped();
    Some(match shown.light {
        Ok(falls_off) => {
            view! { <div class="notice"><p role="status">{words::light_said(falls_off, clipped)}</p></div> }
                .into_any()
        }
        Err(notice) => view! {
            <div class="notice fault">
                <p role="status">
                    <b>{notice.what}</b>
                    " "
                    {notice.why}
                    " "
                    {notice.remedy}
                </p>
            </div>
        }
        .into_any(),
    })
}
