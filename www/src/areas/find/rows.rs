//! The ways that come nearest, the one that is tried among them; or why there are none.

use super::color::on_screen;
use super::state::{Came, FindState, Row};
use crate::controls::color_pair::ColorPair;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// The class of what chooses a way.
pub const WAY: &str = "find-way";
/// Beyond this, CIEDE2000, it is another color.
const REACHES: f64 = 10.0;

/// The id of what chooses the way in this row.
pub fn way_id(at: usize) -> String {
    format!("{WAY}-{at}")
}

/// The rows, and what there is to say of them.
pub fn rows(state: FindState) -> AnyView {
    let places = move || 0..state.count();
    let heads = || words::FIND_HEADS.into_iter().map(|head| view! { <span>{head}</span> }).collect_view();
    let any = Memo::new(move |_| state.count() > 0);
    let sponge = move || state.piece.kept.read().sponge.is_some();
    view! {
        <p class="find-said" role="status">{move || said(state)}</p>
        <Show when=move || any.get()>
            <div class="find-heads" aria-hidden="true">{heads()}</div>
        </Show>
        <div class="find-rows" role="radiogroup" aria-label=words::FINDS>
            <For each=places key=|at| *at let:at>
                {row(state, at)}
            </For>
        </div>
        <Show when=move || any.get()>
            <p class="aside">{words::FIND_HALVES} {move || sponge().then_some(words::FIND_SPONGE)}</p>
        </Show>
    }
    .into_any()
}

/// What there is to say instead of rows, or above them.
fn said(state: FindState) -> Option<&'static str> {
    if state.finding.wanted.get().is_none() {
        return Some(words::TYPE_A_COLOR);
    }
    if state.jars.read().is_empty() {
        return Some(words::NO_OWN_JARS);
    }
    match &*state.came.read() {
        None => Some(words::LOOKING),
        Some(Came::NoCoat) => Some(words::NO_COAT_TO_FIND_FOR),
        Some(Came::Rows(rows, _)) if rows.first().is_none_or(|row| row.found.apart > REACHES) => {
            Some(words::NONE_REACHES)
        }
        Some(Came::Rows(..)) => {
            (state.finding.two.get() && !state.has_room()).then_some(words::NO_ROOM_FOR_TWO)
        }
    }
}

/// A row: what chooses it, and if it is the one that is tried, what puts it in.
fn row(state: FindState, at: usize) -> AnyView {
    let chosen = Memo::new(move |_| state.chosen.get() == at);
    let preferences = expect_context::<Preferences>();
    let shown = move || state.row(at).map(|row| cells(state, &row, preferences.units.get()));
    view! {
        <div class="find-row" class:chosen=move || chosen.get()>
            <button
                class=WAY
                id=way_id(at)
                role="radio"
                aria-checked=move || chosen.get().to_string()
                tabindex=move || if chosen.get() { "0" } else { "-1" }
                on:click=move |_| state.choose(at)
            >
                {shown}
            </button>
            <Show when=move || chosen.get()>
                <button class="button main" on:click=move |_| state.put_in()>
                    {move || words::put_it_in(&state.coat_name())}
                </button>
            </Show>
        </div>
    }
    .into_any()
}

/// What a row says.
fn cells(state: FindState, row: &Row, units: Units) -> AnyView {
    let wanted = state.finding.wanted.get().unwrap_or(row.found.color);
    let halves = Some((on_screen(wanted), on_screen(row.found.color)));
    view! {
        <ColorPair colors=Signal::stored(halves) />
        <span class="find-what">
            <b>{row.what.clone()}</b>
            " "
            <small>{units.text(&words::how_deep(&row.found.way))}</small>
        </span>
        <span class="find-apart">
            <span class="unseen">{words::APART_BY}</span>
            <b>{fixed(row.found.apart, 1)}</b>
            " "
            <small>{words::how_near(&row.found)}</small>
        </span>
        <span>{words::how_sure_found(row.found.sure)}</span>
        <span>{words::grams_of_each(&row.grams)}</span>
    }
    .into_any()
}
