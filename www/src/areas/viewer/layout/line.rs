//! The words under the disc: what the hand can do to the open coat or to the accents.

use super::free_place::free_place;
use super::offer::{Offer, offer};
use super::sponge;
use super::state::HandLayout;
use super::tool::WIDTHS;
use crate::state::results::Results;
use crate::words::{self, did};
use dappledome::base::units::Mm;
use dappledome::preview::Point;
use dappledome::recipe::{Fall, Patches, Place, Recipe};
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The line.
#[component]
pub fn HandLine() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let offer = Memo::new(move |_| offer(layout));
    let words = move || match offer.get() {
        Offer::Nothing => ().into_any(),
        Offer::Sponge => view! { <TakeSponge /> }.into_any(),
        Offer::Patches { id, by_hand } => view! { <PatchWords id by_hand /> }.into_any(),
        Offer::Accents { by_hand } => view! { <AccentWords by_hand /> }.into_any(),
        Offer::Sponging { rubbed } => view! { <SpongeWords rubbed /> }.into_any(),
    };
    let escape = move |event: KeyboardEvent| {
        if event.key() == "Escape" && sponge::key(layout, &event) {
            event.prevent_default();
            event.stop_propagation();
        }
    };
    view! {
        <div
            class="hand-line"
            role="group"
            aria-label=words::BY_HAND
            class:hidden=move || offer.get() == Offer::Nothing
            on:keydown=escape
        >
            {words}
        </div>
    }
}

/// Takes the sponge up.
#[component]
fn TakeSponge() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    view! {
        <button class="table-word" on:click=move |_| sponge::take_up(layout)>
            {words::SPONGE_OFF_BY_HAND}
        </button>
    }
}

/// What can be done to the patches of a coat.
#[component]
fn PatchWords(
    /// The coat.
    id: u32,
    /// Whether the hand did something to it already.
    by_hand: bool,
) -> impl IntoView {
    let (layout, results) = (expect_context::<HandLayout>(), expect_context::<Results>());
    let piece = layout.piece;
    let add = move |_| {
        let at = untrack(|| free_place(layout, tapped(results)));
        let name = words::patch_added(&untrack(|| layout.powder()));
        piece.edit(&name, |recipe| add_patch(recipe, id, at));
        layout.select_added();
    };
    let back = move |_| piece.edit(words::BACK_TO_HOW_IT_FELL_STEP, |recipe| put_patches_back(recipe, id));
    view! {
        <p class="hand-help">{words::MOVE_PATCHES}</p>
        <button class="table-word wide-only" on:click=move |_| piece.edit(did::MIRROR, |recipe| mirror(recipe, id))>
            {move || words::mirror_coat(&layout.powder())}
        </button>
        <button class="table-word" on:click=add>
            {words::ADD_A_PATCH}
        </button>
        <TakeSponge />
        {by_hand
            .then(|| {
                view! {
                    <button class="table-word" on:click=back>
                        {words::BACK_TO_HOW_IT_FELL}
                    </button>
                }
            })}
    }
}

/// What can be done to the accents.
#[component]
fn AccentWords(
    /// Whether the hand did something to them already.
    by_hand: bool,
) -> impl IntoView {
    let (layout, results) = (expect_context::<HandLayout>(), expect_context::<Results>());
    let piece = layout.piece;
    let add = move |_| {
        let at = untrack(|| free_place(layout, tapped(results)));
        piece.edit(words::ACCENT_ADDED, |recipe| add_accent(recipe, at));
        layout.select_added();
    };
    let back = move |_| piece.edit(words::BACK_TO_HOW_IT_FELL_STEP, put_accents_back);
    view! {
        <p class="hand-help">{words::MOVE_ACCENTS}</p>
        <button class="table-word" on:click=add>
            {words::ADD_AN_ACCENT}
        </button>
        {by_hand
            .then(|| {
                view! {
                    <button class="table-word" on:click=back>
                        {words::BACK_TO_HOW_THEY_FELL}
                    </button>
                }
            })}
    }
}

/// What can be done with the sponge in the hand.
#[component]
fn SpongeWords(
    /// Whether powder was rubbed off.
    rubbed: bool,
) -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let put_back = move |_| layout.piece.edit(words::POWDER_PUT_BACK, |recipe| recipe.sponged_off.clear());
    view! {
        {WIDTHS.into_iter().map(|width| view! { <SpongeWidth width /> }).collect_view()}
        {rubbed
            .then(|| {
                view! {
                    <button class="table-word" on:click=put_back>
                        {words::PUT_POWDER_BACK}
                    </button>
                }
            })}
        <button class="table-word" on:click=move |_| sponge::lay_aside(layout)>
            {words::DONE}
        </button>
    }
}

/// Takes a sponge of this width.
#[component]
fn SpongeWidth(
    /// The width, mm.
    width: f64,
) -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let chosen = move || layout.sponge.get().is_some_and(|sponge| sponge.width == width);
    view! {
        <button
            class="table-word"
            aria-pressed=move || chosen().to_string()
            on:click=move |_| sponge::widen(layout, width)
        >
            {move || words::sponge_width(width, layout.units.get())}
        </button>
    }
}

/// Where the glass was last tapped.
fn tapped(results: Results) -> Option<[f32; 2]> {
    match results.sample_point.get_untracked() {
        Point::Place(x, y) => Some([x, y]),
        Point::Seen(..) => None,
    }
}

fn mirror(recipe: &mut Recipe, id: u32) {
    if let Some(coat) = recipe.coat_mut(id) {
        coat.layout.mirrored = !coat.layout.mirrored;
    }
}

fn add_patch(recipe: &mut Recipe, id: u32, at: Place) {
    let Some(coat) = recipe.coat_mut(id) else { return };
    let Fall::Patches(Patches { size: across, .. }) = coat.fall else { return };
    // A coat that was laid full takes no more.
    let _ = coat.add_patch(at, across);
}

fn put_patches_back(recipe: &mut Recipe, id: u32) {
    if let Some(coat) = recipe.coat_mut(id) {
        coat.back_to_how_it_fell();
    }
}

fn add_accent(recipe: &mut Recipe, at: Place) {
    let Some(accents) = &mut recipe.accents else { return };
    let size = Mm((accents.grade_from.0 + accents.grade_to.0) / 2.0);
    // A ring that is full takes no more.
    let _ = accents.add_accent(at, size, None);
}

fn put_accents_back(recipe: &mut Recipe) {
    if let Some(accents) = &mut recipe.accents {
        accents.back_to_how_they_fell();
    }
}
