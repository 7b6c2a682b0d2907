//! How a photo comes in: chosen, taken with the camera, or dropped.

use crate::model::photo::Photo;
use crate::services::photo::{LONGEST, PhotoReader};
use crate::state::announcer::Announcer;
use crate::words;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::{DragEvent, File};

/// Who brings a photo in, and what there is to say of it.
#[derive(Clone, Copy)]
pub struct PhotoIntake {
    bring: Callback<Photo>,
    reader: PhotoReader,
    announcer: Announcer,
    field: NodeRef<html::Input>,
    /// What is being done, or went wrong.
    said: RwSignal<Option<String>>,
}

impl PhotoIntake {
    /// One that brings photos there. Takes contexts of the page.
    pub fn new(bring: impl Fn(Photo) + Send + Sync + 'static) -> Self {
        let said = RwSignal::new(None);
        let bring = Callback::new(bring);
        Self { bring, reader: expect_context(), announcer: expect_context(), field: NodeRef::new(), said }
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

    /// Reads a file.
    pub fn take(&self, file: File) {
        let Self { bring, reader, announcer, said, .. } = *self;
        spawn_local(async move {
            said.set(Some(words::PHOTO_COMES.into()));
            let wrong = match reader.read(&file, LONGEST).await {
                Err(fault) => Some(words::photo_fault(&file.name(), fault)),
                Ok(photo) => {
                    announcer.say(words::photo_opened(&photo.name));
                    bring.run(photo);
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

/// What chooses a photo, or another one when one is there; `hint` stands beside it while none is, `none` when one is.
pub fn choosing(
    intake: PhotoIntake,
    there: Signal<bool>,
    hint: &'static str,
    none: impl Fn() -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    let word = move || if there.get() { words::ANOTHER_PHOTO } else { words::CHOOSE_PHOTO };
    let beside =
        move || if there.get() { none() } else { view! { <span class="second">{hint}</span> }.into_any() };
    view! {
        <p class="photo-words">
            <button class="word" on:click=move |_| intake.choose()>
                {word}
            </button>
            {beside}
        </p>
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
    }
}
