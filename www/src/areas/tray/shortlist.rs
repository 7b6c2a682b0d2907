//! The shortlist with its letters, and the ways to show it.

use crate::controls::picture::Picture;
use crate::model::ids::AreaId;
use crate::model::slots::PictureSlot;
use crate::services::ordering::Ordering;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::shop::order::{Order, shared_out};
use leptos::prelude::*;

/// The shortlist.
#[component]
pub fn Shortlist() -> impl IntoView {
    let (tray, piece) = (expect_context::<Tray>(), expect_context::<Workpiece>());
    let kept = Memo::new(move |_| piece.sisters.read().kept_seeds());
    view! {
        <p class="answer" role="status">
            {tray.answer}
        </p>
        <section class="ledge" aria-label=words::SHORTLIST>
            <div class="ledge-head">
                <b>{words::SHORTLIST}</b>
                <span class="note">{move || words::kept_count(kept.read().len())}</span>
            </div>
            <ul class="options" style=("--n", move || kept.read().len().max(1).to_string())>
                <For
                    each=move || kept.get()
                    key=|seed| *seed
                    children=move |seed| view! { <ShortlistedDisc seed /> }
                />
            </ul>
            <Show when=move || !kept.read().is_empty()>
                <WaysToShow />
            </Show>
            <MovedOn kept />
            <OrderSum />
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
    let chosen = Memo::new(move |_| piece.sisters.read().chosen.contains(&seed));
    let moved_on = Memo::new(move |_| piece.has_moved_on(seed));
    view! {
        <li>
            <button
                class="option-disc"
                class:chosen=chosen
                aria-label=move || {
                    words::option_disc(&letter.get(), seed, chosen.get(), moved_on.get())
                }
                on:click=move |_| tray.at.set(seed)
            >
                <b>{letter}</b>
                <span class="round">
                    <Picture of=PictureSlot::Shortlisted(seed) />
                </span>
            </button>
        </li>
    }
}

/// The options that the recipe shows otherwise by now, and the word that takes the change over for them.
#[component]
fn MovedOn(
    /// The options.
    kept: Memo<Vec<Seed>>,
) -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let piece = expect_context::<Workpiece>();
    let changed = Memo::new(move |_| {
        kept.get().into_iter().filter(|seed| piece.has_moved_on(*seed)).collect::<Vec<_>>()
    });
    let said = move || {
        let sisters = piece.sisters.read();
        let letters: Vec<_> = changed.read().iter().filter_map(|seed| sisters.letter(*seed)).collect();
        words::moved_on(&letters)
    };
    view! {
        <Show when=move || !changed.read().is_empty()>
            <div class="moved-on">
                <p class="note">{said}</p>
                <button
                    class="table-word"
                    on:click=move |_| announcer.say(tray.take_change(&changed.get_untracked()))
                >
                    {words::TAKE_THE_CHANGE}
                </button>
            </div>
        </Show>
    }
}

/// What the chosen options come to in all or, before there is a choice, one of each.
#[component]
fn OrderSum() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let said = move || {
        let (sisters, tickets) = (piece.sisters.read(), results.option_tickets.read());
        let batch = piece.recipe.read().batch;
        let (seeds, pieces) = sisters.wanted(batch.pieces);
        let wanted = shared_out(pieces, &vec![1; seeds.len()]);
        let one = |(seed, pieces): (&Seed, &u32)| Some((tickets.get(seed)?, *pieces));
        let options = seeds.iter().zip(&wanted).map(one).collect::<Option<Vec<_>>>()?;
        Some(words::order_sum(&Order::of(&options, batch.spare_per_ten)?, &sisters.chosen_letters()))
    };
    view! { <p class="note order-sum">{said}</p> }
}

#[component]
fn WaysToShow() -> impl IntoView {
    let (nav, ordering) = (expect_context::<Nav>(), Ordering::of_contexts());
    let way = move |area: AreaId, word: &'static str| {
        view! { <button class="table-word" on:click=move |_| nav.open_area(area)>{word}</button> }
    };
    view! {
        <div class="ledge-ways">
            {way(AreaId::CUSTOMER, words::SHOW_CUSTOMER)}
            {way(AreaId::PAPER, words::OPTION_SHEET)}
            <button class="table-word" on:click=move |_| ordering.chosen()>{words::ORDER_THESE}</button>
        </div>
    }
}
