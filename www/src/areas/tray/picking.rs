//! Sets picked for the maker from what lies on the tray.

use super::picked_set::{SetKind, pick};
use crate::model::slots::PictureSlot;
use crate::services::render::sisters::SisterRenderer;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

/// Fewest and most sisters of a picked set.
const SIZES: (usize, usize) = (2, 24);

/// How many, and in which way.
#[component]
pub fn Picking() -> impl IntoView {
    let renderer = expect_context::<SisterRenderer>();
    // Whoever left the tray, or took another piece, does not want the shortlist changed behind their back.
    on_cleanup(move || renderer.measure_no_more());
    view! {
        <section aria-label=words::PICK_A_SET>
            <SetSize />
            <div class="buttons">
                <PickButton kind=SetKind::Together word=words::THAT_BELONG_TOGETHER />
                <PickButton kind=SetKind::Different word=words::AS_DIFFERENT />
            </div>
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
            <b>{words::SET_OF}</b>
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
    let (tray, renderer) = (expect_context::<Tray>(), expect_context::<SisterRenderer>());
    let piece = expect_context::<Workpiece>();
    view! {
        <button class="button pick" on:click=move |_| keep_set(tray, renderer, piece, kind)>
            {word}
        </button>
    }
}

/// Picks a set out of a pool and keeps it as the shortlist: one step back brings the old one again.
fn keep_set(tray: Tray, renderer: SisterRenderer, piece: Workpiece, kind: SetKind) {
    let (pool, size) = (tray.pool(), tray.set_size.get_untracked());
    tray.answer.set(words::looking_through(pool.len()));
    let id = piece.id.get_untracked();
    renderer.measure(pool, PictureSlot::Measured, move |measured| {
        if piece.id.get_untracked() != id {
            return;
        }
        // A pool is always larger than a set.
        let Some(set) = pick(&measured, size, kind) else { return };
        let (together, of) = (kind == SetKind::Together, (&set.seeds[..], measured.len()));
        let said = piece.recipe.with_untracked(|recipe| words::picked(recipe, of, &set.spread, together));
        tray.keep_only(words::A_SET, &set.seeds);
        tray.answer.set(said);
    });
}
