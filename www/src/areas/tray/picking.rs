//! Sets picked for the maker from what lies on the tray.

use super::picked_set::{SetKind, pick};
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::shop::sisters::Features;
use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

/// Fewest and most sisters of a picked set.
const SIZES: (usize, usize) = (2, 24);

/// How many, in which way, and what came of it.
#[component]
pub fn Picking() -> impl IntoView {
    let tray = expect_context::<Tray>();
    view! {
        <section aria-label=words::PICK_A_SET>
            <h2>{words::PICK_A_SET}</h2>
            <SetSize />
            <div class="buttons">
                <PickButton kind=SetKind::Together word=words::THAT_BELONG_TOGETHER />
                <PickButton kind=SetKind::Different word=words::AS_DIFFERENT />
            </div>
            <p class="aside answer" role="status">
                {tray.answer}
            </p>
        </section>
    }
}

#[component]
fn SetSize() -> impl IntoView {
    let tray = expect_context::<Tray>();
    let changed = move |event: Event| {
        if let Ok(size) = event_target_value(&event).trim().parse::<usize>() {
            tray.set_size.set(size.clamp(SIZES.0, SIZES.1));
        }
        // What was typed may have been no size, or none that is allowed.
        let field: HtmlInputElement = event_target(&event);
        field.set_value(&tray.set_size.get_untracked().to_string());
    };
    view! {
        <label class="set-size-line">
            <span class="second">{words::SET_OF}</span>
            <input
                class="set-size"
                type="text"
                inputmode="numeric"
                autocomplete="off"
                maxlength="2"
                prop:value=move || tray.set_size.get().to_string()
                on:change=changed
            />
        </label>
    }
}

#[component]
fn PickButton(
    /// What the set is picked for.
    kind: SetKind,
    /// Its words, behind the number.
    word: &'static str,
) -> impl IntoView {
    let (tray, results) = (expect_context::<Tray>(), expect_context::<Results>());
    let piece = expect_context::<Workpiece>();
    view! {
        <button class="button pick" on:click=move |_| keep_set(tray, results, piece, kind)>
            <b>{move || tray.set_size.get().to_string()}</b>
            {word}
        </button>
    }
}

/// Picks a set and keeps it as the shortlist: one step back brings the old one again.
fn keep_set(tray: Tray, results: Results, piece: Workpiece, kind: SetKind) {
    let (drawn, size) = (drawn(tray, results), tray.set_size.get_untracked());
    let Some(set) = pick(&drawn, size, kind) else {
        return tray.answer.set(words::too_few_to_pick(drawn.len(), size));
    };
    let together = kind == SetKind::Together;
    let said = piece.recipe.with_untracked(|recipe| words::picked(recipe, &set.seeds, &set.spread, together));
    tray.answer.set(said);
    piece.decide(words::A_SET, |sisters| {
        sisters.kept = set.seeds;
        sisters.chosen = None;
    });
}

/// The sisters on the tray that are drawn, and what tells them apart.
fn drawn(tray: Tray, results: Results) -> Vec<(Seed, Features)> {
    results.features.with_untracked(|known| {
        let seeds = tray.seeds.get_untracked().into_iter();
        seeds.filter_map(|seed| Some((seed, known.get(&seed)?.clone()))).collect()
    })
}
