//! The seed: the one before, the present one to be typed, the next one, another by chance.

use crate::controls::what_seeds_are::WhatSeedsAre;
use crate::model::ids::rolled;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::ev;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

/// The group.
#[component]
pub fn SeedGroup() -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let roll = move |_| {
        piece.sow(rolled());
        preferences.note_seeds();
    };
    view! {
        <div class="seed" role="group" aria-label=words::SEED>
            <WhatSeedsAre />
            <Sister name=words::PREVIOUS by=-1 />
            <label class="seed-now">
                <b class="seed-word">{words::SEED}</b>
                <SeedField />
            </label>
            <Sister name=words::NEXT by=1 />
            <button class="table-word" on:click=roll>
                {words::ROLL}
            </button>
        </div>
    }
}

/// Takes the seed before or after.
#[component]
fn Sister(
    /// What it does.
    name: &'static str,
    /// Which way.
    by: i32,
) -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let take = move |_| {
        piece.sow_next(by);
        preferences.note_seeds();
    };
    let number = move || words::sister(piece.seed.get().0.wrapping_add_signed(by), by);
    view! {
        <button
            class="table-word"
            aria-label=move || words::named_sister(&number(), name)
            on:click=take
        >
            {number}
        </button>
    }
}

/// The present seed.
#[component]
fn SeedField() -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let take = move |event: ev::Event| {
        let field: HtmlInputElement = event_target(&event);
        match typed(&field.value()) {
            Some(seed) => {
                piece.sow(seed);
                preferences.note_seeds();
            }
            None => field.set_value(&piece.seed.get_untracked().to_string()),
        }
    };
    view! {
        <input
            class="seed-number"
            aria-label=words::SEED
            type="text"
            inputmode="numeric"
            autocomplete="off"
            maxlength="10"
            size=move || piece.seed.get().to_string().len().max(2).to_string()
            prop:value=move || piece.seed.get().to_string()
            on:change=take
        />
    }
}

/// The seed that the digits of a text are; none if they are no seed.
fn typed(text: &str) -> Option<Seed> {
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    digits.parse().ok().map(Seed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_digits_count() {
        assert_eq!(typed("No. 4 2"), Some(Seed(42)));
        assert_eq!([typed(""), typed("ten"), typed("99999999999")], [None; 3]);
    }
}
