//! A mold on the shelf: what it is, and what can be done with it.

use super::numbers::MoldNumbers;
use crate::state::molds::Molds;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The mold.
#[component]
pub fn MoldItem(
    /// Its place among them.
    place: usize,
    /// Which one is being changed.
    open: RwSignal<Option<usize>>,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let (molds, preferences) = (expect_context::<Molds>(), expect_context::<Preferences>());
    let name = move || molds.at(place).map(|own| own.name).unwrap_or_default();
    let what = move || molds.at(place).map(|own| preferences.text(&words::mold_in_words(&own)));
    let is_open = Memo::new(move |_| open.get() == Some(place) && !molds.are_invented());
    view! {
        <li class="mold-item">
            <p>
                <b>{name}</b>
                " "
                <span class="second">{what}</span>
            </p>
            <div class="buttons">
                <UseIt place />
                <Show when=move || !molds.are_invented()>
                    <Own place open said />
                </Show>
            </div>
            <Show when=move || is_open.get()>
                <MoldNumbers place said />
            </Show>
        </li>
    }
}

/// Puts it into the recipe, or says that it is there.
#[component]
fn UseIt(
    /// Its place among them.
    place: usize,
) -> impl IntoView {
    let (molds, piece) = (expect_context::<Molds>(), expect_context::<Workpiece>());
    let in_use = Memo::new(move |_| {
        molds.at(place).is_some_and(|own| piece.recipe.with(|recipe| recipe.mold == own.mold))
    });
    let take = move |_| {
        if let Some(own) = untrack(|| molds.at(place)) {
            piece.edit(words::did::MOLD, |recipe| recipe.mold = own.mold);
        }
    };
    let label = move || {
        let word = if in_use.get() { words::MOLD_IN_USE } else { words::USE_MOLD };
        molds.at(place).map(|own| words::of_mold(word, &own.name))
    };
    view! {
        <button class="button" aria-label=label disabled=in_use on:click=take>
            {move || if in_use.get() { words::MOLD_IN_USE } else { words::USE_MOLD }}
        </button>
    }
}

/// What can be done with one of the maker's own.
#[component]
fn Own(
    /// Its place among them.
    place: usize,
    /// Which one is being changed.
    open: RwSignal<Option<usize>>,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    let is_open = move || open.get() == Some(place);
    let word = move || if is_open() { words::DONE_WITH_MOLD } else { words::CHANGE_MOLD };
    let label = move |word: &str| molds.at(place).map(|own| words::of_mold(word, &own.name));
    let toggle = move |_| {
        said.set(None);
        open.update(|now| *now = (*now != Some(place)).then_some(place));
    };
    let delete = move |_| {
        said.set(None);
        open.set(None);
        molds.delete(place);
    };
    view! {
        <button
            class="button"
            aria-label=move || label(word())
            aria-expanded=move || is_open().to_string()
            on:click=toggle
        >
            {word}
        </button>
        <button class="button" aria-label=move || label(words::DELETE_MOLD) on:click=delete>
            {words::DELETE_MOLD}
        </button>
    }
}
