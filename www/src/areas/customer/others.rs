//! The options in a row, small.

use super::state::Showing;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::recipe::sisters::letter;
use leptos::prelude::*;

/// All options.
#[component]
pub fn Others(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    view! {
        <ul class="customer-options" style=("--n", move || showing.kept.read().len().max(1).to_string())>
            <For
                each=move || showing.kept.get().into_iter().enumerate()
                key=|option| *option
                children=move |(at, seed)| view! { <SmallOption at seed showing /> }
            />
        </ul>
    }
}

#[component]
fn SmallOption(
    /// Its place among the options, counted from 0.
    at: usize,
    /// Its seed.
    seed: Seed,
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let slot = move || PictureSlot::Option(seed, showing.light());
    let chosen = Memo::new(move |_| showing.has_chosen(seed));
    view! {
        <li>
            <button
                class="customer-option"
                class:chosen=chosen
                aria-label=move || words::option(&letter(at), chosen.get())
                aria-current=move || (showing.at.get() == at).to_string()
                on:click=move |_| showing.at.set(at)
            >
                <b>{letter(at)}</b>
                {move || view! { <Picture of=slot() /> }}
            </button>
        </li>
    }
}
