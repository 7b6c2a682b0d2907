//! The area as a whole.

use super::discs::discs;
use super::marked::marked;
use super::rows::rows;
use super::state::AgainstState;
use super::teach::teach;
use crate::controls::cautions::CautionsWord;
use crate::controls::photo::PhotoIntake;
use crate::state::against::FiredPhoto;
use crate::words;
use leptos::prelude::*;

/// The area.
pub fn against_area() -> AnyView {
    let state = AgainstState::start();
    let bring = move |photo| {
        state.against.waiting.set(None);
        state.against.photo.set(Some(FiredPhoto::new(photo)));
    };
    let intake = PhotoIntake::new(bring);
    // A file may come while the area lies on the table.
    Effect::new(move || state.against.waiting.get().into_iter().for_each(|file| intake.take(file)));
    let title =
        move || state.piece.recipe.with(|recipe| words::fired_of(&recipe.title, state.piece.seed.get()));
    view! {
        <section
            class="area against-area"
            aria-label=words::AGAINST
            tabindex="-1"
            on:dragover=move |event| event.prevent_default()
            on:drop=move |event| intake.take_dropped(&event)
        >
            <div class="tray-top">
                <h2>{words::AGAINST}</h2>
                <span>{title}</span>
                <span class="gap"></span>
                <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| state.nav.close_area()>
                    {words::CLOSE}
                </button>
            </div>
            <div class="kiln-paper against-paper">
                {marked(state, intake)}
                {move || state.comparison().map(|_| discs(state))}
                {rows(state)}
                {teach(state)}
            </div>
        </section>
    }
    .into_any()
}
