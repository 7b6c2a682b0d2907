//! The shortlist with its letters, and the ways to show it.

use crate::controls::picture::Picture;
use crate::model::ids::AreaId;
use crate::model::slots::PictureSlot;
use crate::state::nav::Nav;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::prelude::*;

/// The shortlist.
#[component]
pub fn Shortlist() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let kept = Memo::new(move |_| piece.sisters.read().kept.clone());
    view! {
        <section class="ledge" aria-label=words::SHORTLIST>
            <div class="ledge-head">
                <b>{words::SHORTLIST}</b>
                <span class="note">{move || words::kept_count(kept.read().len())}</span>
            </div>
            <ul class="options">
                <For
                    each=move || kept.get()
                    key=|seed| *seed
                    children=move |seed| view! { <ShortlistedDisc seed /> }
                />
            </ul>
            <Show when=move || !kept.read().is_empty()>
                <WaysToShow />
            </Show>
        </section>
    }
}

#[component]
fn ShortlistedDisc(
    /// Which sister.
    seed: Seed,
) -> impl IntoView {
    let (tray, piece) = (expect_context::<Tray>(), expect_context::<Workpiece>());
    let letter = Memo::new(move |_| piece.sisters.read().letter(seed).unwrap_or_default());
    let chosen = Memo::new(move |_| piece.sisters.read().chosen == Some(seed));
    view! {
        <li>
            <button
                class="option-disc"
                class:chosen=chosen
                aria-label=move || words::option_disc(&letter.get(), seed, chosen.get())
                on:click=move |_| tray.at.set(seed)
            >
                <b>{letter}</b>
                <span class="round">
                    <Picture of=PictureSlot::Sister(seed) />
                </span>
            </button>
        </li>
    }
}

#[component]
fn WaysToShow() -> impl IntoView {
    let nav = expect_context::<Nav>();
    let way = move |area: AreaId, word: &'static str| {
        view! { <button class="table-word" on:click=move |_| nav.open_area(area)>{word}</button> }
    };
    view! {
        <div class="ledge-ways">
            {way(AreaId::CUSTOMER, words::SHOW_CUSTOMER)}
            {way(AreaId::PAPER, words::OPTION_SHEET)}
        </div>
    }
}
