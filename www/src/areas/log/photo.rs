//! What came out and what was foretold, side by side: a photo that the maker chooses, and the forecast.

use crate::controls::picture::Picture;
use crate::dom::object_url::ObjectUrl;
use crate::dom::photo;
use crate::model::ids::LogId;
use crate::model::photo::PhotoFault;
use crate::model::slots::PictureSlot;
use crate::services::photo::PhotoReader;
use crate::services::render::piece::PieceRenderer;
use crate::services::storage;
use crate::state::log::Log;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::keep::backup::MOST_PICTURE;
use dappledome::picture::view::Stage;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::File;

/// The longest side that a photo is kept with, pixels.
const LONGEST: i32 = 800;

/// The stage that a piece is in after a firing.
pub fn stage_after(firing: Firing) -> Stage {
    match firing {
        Firing::FullFuse | Firing::TackFuse => Stage::Fused,
        Firing::Slump => Stage::Domed,
    }
}

/// What was foretold of an entry, at a stage, as it would be drawn today.
pub fn forecast(log: Log, id: LogId, stage: Stage) -> AnyView {
    let slot = PictureSlot::Logged(id, stage);
    let renderer = expect_context::<PieceRenderer>();
    let fired = untrack(|| log.with(id, |entry| (entry.recipe.clone(), entry.seed)));
    let picture = view! { <Picture of=slot /> };
    if let Some((recipe, seed)) = fired {
        renderer.ask_some_time(slot, stage, &recipe, seed);
    }
    picture.into_any()
}

/// The photo beside the forecast, and the word that chooses one.
pub fn photos(log: Log, id: LogId) -> AnyView {
    let (shown, said) = (RwSignal::new(None::<ObjectUrl>), RwSignal::new(None::<String>));
    let (field, reader) = (NodeRef::<html::Input>::new(), expect_context::<PhotoReader>());
    Effect::new(move || {
        log.pictured.track();
        spawn_local(async move {
            if let Ok(Some(bytes)) = storage::photo(id.0).await {
                // The entry may have been closed meanwhile.
                drop(shown.try_set(ObjectUrl::of_bytes(&bytes)));
            }
        });
    });
    let take = move |_| {
        let Some(field) = field.get_untracked() else { return };
        let file = field.files().and_then(|files| files.get(0));
        // Else choosing the same file twice would go unnoticed.
        field.set_value("");
        let Some(file) = file else { return };
        spawn_local(async move {
            let wrong = keep(log, id, reader, &file).await.err();
            let _ = said.try_set(wrong);
        });
    };
    let stage = untrack(|| log.with(id, |entry| stage_after(entry.firing))).unwrap_or(Stage::Fused);
    let address = move || shown.read().as_ref().map(ObjectUrl::address);
    let word = move || if shown.read().is_some() { words::ANOTHER_PHOTO } else { words::ADD_PHOTO };
    view! {
        <div class="log-pictures">
            <figure>
                <span class="log-round" class:empty=move || shown.read().is_none()>
                    {move || address().map(|address| view! { <img src=address alt=words::FIRED /> })}
                </span>
                <figcaption>{words::FIRED}</figcaption>
            </figure>
            <figure>
                <span class="log-round" class:flat=(stage == Stage::Fused)>{forecast(log, id, stage)}</span>
                <figcaption>{words::FORECAST_PICTURE}</figcaption>
            </figure>
            <div>
                <button class="word" on:click=move |_| field.get_untracked().iter().for_each(|field| field.click())>
                    {word}
                </button>
                <input
                    class="photo-field"
                    type="file"
                    accept="image/*"
                    hidden
                    aria-label=words::ADD_PHOTO
                    node_ref=field
                    on:change=take
                />
                <p class="refused" role="alert">{move || said.get()}</p>
            </div>
        </div>
    }
    .into_any()
}

/// Keeps the photo in a file with an entry.
///
/// # Errors
/// Why it is not kept, in words.
async fn keep(log: Log, id: LogId, reader: PhotoReader, file: &File) -> Result<(), String> {
    let told = |fault| words::photo_fault(&file.name(), fault);
    let photo = reader.read(file, LONGEST).await.map_err(told)?;
    let bytes = photo::small(&photo, MOST_PICTURE).await.ok_or_else(|| told(PhotoFault::None))?;
    storage::save_photo(id.0, &bytes).await.map_err(|fault| words::not_kept(fault).to_owned())?;
    log.pictured.update(|count| *count += 1);
    Ok(())
}
