//! A page of the sheet.

use super::types::{ON_A_PAGE, SHOWN_BY};
use crate::areas::finished_size::Sizes;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::sisters::letter;
use leptos::prelude::*;

/// A page: its head, an option in each row, its foot.
#[component]
pub fn Page(
    /// Which page, counted from 0.
    number: usize,
    /// The options of all pages.
    options: Memo<Vec<Seed>>,
    /// Their finished sizes.
    sizes: Memo<Sizes>,
) -> impl IntoView {
    let here = Memo::new(move |_| {
        let all = options.get().into_iter().enumerate();
        all.skip(number * ON_A_PAGE).take(ON_A_PAGE).collect::<Vec<_>>()
    });
    view! {
        <article class="printed">
            <PageHead sizes />
            <div class="option-row heads">
                <span></span>
                <span>{words::BY_DAY}</span>
                <span>{words::LIT_FROM_WITHIN}</span>
            </div>
            <For
                each=move || here.get()
                key=|option| *option
                children=move |(at, seed)| view! { <OptionRow at seed sizes /> }
            />
            <For
                each=move || here.read().len()..ON_A_PAGE
                key=|at| *at
                children=|_| view! { <div class="option-row empty"></div> }
            />
            <footer class="page-foot">
                <span>{words::SHEET_CAUTION}</span>
                <span>{words::DAPPLEDOME}</span>
            </footer>
        </article>
    }
}

#[component]
fn PageHead(
    /// The finished sizes of all options.
    sizes: Memo<Sizes>,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    view! {
        <header class="page-head">
            <div>
                <h3>{move || piece.recipe.read().title.clone()}</h3>
                <p>{move || sizes.read().head()}</p>
            </div>
            <div>
                <FillIn word=words::FOR />
                <FillIn word=words::DATE />
            </div>
        </header>
    }
}

/// A word and a line to write on.
#[component]
fn FillIn(
    /// The word.
    word: &'static str,
) -> impl IntoView {
    view! {
        <p class="fill-in">
            {word}
            <span></span>
        </p>
    }
}

#[component]
fn OptionRow(
    /// Its place among all options, counted from 0.
    at: usize,
    /// Its seed.
    seed: Seed,
    /// The finished sizes of all options.
    sizes: Memo<Sizes>,
) -> impl IntoView {
    let pictures = SHOWN_BY.map(|light| {
        let lit = light == Light::Within;
        view! {
            <div
                class="option-picture"
                class:dusk=lit
                role="img"
                aria-label=words::option_picture(&letter(at), lit)
            >
                <Picture of=PictureSlot::Option(seed, light) />
            </div>
        }
    });
    view! {
        <div class="option-row">
            <div class="option-words">
                <p class="option-letter">{letter(at)}</p>
                <p>{words::seed(seed)}</p>
                <p>{move || sizes.read().beside(at)}</p>
                <FillIn word=words::PRICE />
            </div>
            {pictures}
        </div>
    }
}
