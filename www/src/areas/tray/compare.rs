//! Two sisters lifted and compared: side by side, or one over the other.

use super::wipe::Wipe;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::results::Results;
use crate::state::tray::{Compare, Tray};
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::prelude::*;

/// What is lifted, if anything is.
#[component]
pub fn Comparison() -> impl IntoView {
    let tray = expect_context::<Tray>();
    move || match tray.lifted.get() {
        [None, None] => None,
        [Some(one), Some(other)] => Some(view! { <Pair one other /> }.into_any()),
        [Some(seed), None] | [None, Some(seed)] => Some(view! { <Alone seed /> }.into_any()),
    }
}

/// One sister lifted, and how to lift another.
#[component]
fn Alone(
    /// Which sister.
    seed: Seed,
) -> impl IntoView {
    view! {
        <div class="pair">
            <div class="pair-discs">
                <LiftedDisc seed />
            </div>
            <p class="pair-said">{words::LIFT_ANOTHER}</p>
        </div>
    }
}

/// Two sisters lifted, and what tells one from the other.
#[component]
fn Pair(
    /// The left one.
    one: Seed,
    /// The right one.
    other: Seed,
) -> impl IntoView {
    let (tray, results) = (expect_context::<Tray>(), expect_context::<Results>());
    let piece = expect_context::<Workpiece>();
    let said = move || {
        let known = results.features_of(one).zip(results.features_of(other));
        known.map_or_else(String::new, |(a, b)| words::compared(&piece.recipe.read(), (one, &a), (other, &b)))
    };
    let discs = move || match tray.compare.get() {
        Compare::Beside => view! { <LiftedDisc seed=one /> <LiftedDisc seed=other /> }.into_any(),
        Compare::Wipe => view! { <Wipe one other /> }.into_any(),
    };
    view! {
        <div class="pair">
            <div class="pair-discs">{discs}</div>
            <div class="pair-hows" role="group" aria-label=words::HOW_TO_COMPARE>
                <WayToCompare compare=Compare::Beside word=words::BESIDE />
                <WayToCompare compare=Compare::Wipe word=words::WIPE />
                <button
                    class="table-word"
                    on:click=move |_| tray.lifted.update(|lifted| lifted.swap(0, 1))
                >
                    {words::SWAP}
                </button>
            </div>
            <p class="pair-said" role="status">
                {said}
            </p>
        </div>
    }
}

#[component]
fn WayToCompare(
    /// The way.
    compare: Compare,
    /// Its word.
    word: &'static str,
) -> impl IntoView {
    let tray = expect_context::<Tray>();
    view! {
        <button
            class="table-word"
            aria-pressed=move || (tray.compare.get() == compare).to_string()
            on:click=move |_| tray.compare.set(compare)
        >
            {word}
        </button>
    }
}

#[component]
fn LiftedDisc(
    /// Which sister.
    seed: Seed,
) -> impl IntoView {
    let results = expect_context::<Results>();
    view! {
        <div class="lifted-disc">
            <span class="round">
                <Picture of=PictureSlot::Lifted(seed) />
            </span>
            <span class="sister-name">
                {move || words::seed_and_grams(seed, results.features_of(seed).as_ref())}
            </span>
        </div>
    }
}
