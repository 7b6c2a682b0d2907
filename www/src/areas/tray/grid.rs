//! The sisters in staggered rows: pointed at, kept, put away, lifted, taken up, by pointer or by keys.

use super::cell::SisterCell;
use super::columns::{columns_in, row_of};
use super::keys::{GridKey, meaning};
use super::state::GridState;
use crate::dom::focus::focus;
use crate::state::announcer::Announcer;
use crate::state::tray::Tray;
use crate::words;
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;
use leptos_use_resize_observer::use_resize_observer;

/// The grid.
#[component]
pub fn SisterGrid() -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let state = GridState::new();
    let grid = NodeRef::<html::Div>::new();
    keep_measured(grid, state);
    let rows = Memo::new(move |_| tray.seeds.read().len().div_ceil(state.columns.get()));
    let pressed = move |event: KeyboardEvent| {
        if let Some(key) = key_of(&event, tray, state) {
            event.prevent_default();
            follow(key, tray, announcer);
            focus_soon(tray, state);
        }
    };
    view! {
        <div class="tray-grid" role="grid" aria-label=words::SISTERS node_ref=grid on:keydown=pressed>
            <For
                each=move || 0..rows.get()
                key=|row| *row
                children=move |row| view! { <SisterRow row state /> }
            />
        </div>
    }
}

/// A row of sisters.
#[component]
fn SisterRow(
    /// Which row, counted from 0.
    row: usize,
    /// What the cells share.
    state: GridState,
) -> impl IntoView {
    let tray = expect_context::<Tray>();
    let seeds = Memo::new(move |_| row_of(&tray.seeds.read(), state.columns.get(), row).to_vec());
    view! {
        <div class="tray-row" role="row">
            <For
                each=move || seeds.get()
                key=|seed| *seed
                children=move |seed| view! { <SisterCell seed state /> }
            />
        </div>
    }
}

/// Keeps as many discs in a row as there is room for.
fn keep_measured(grid: NodeRef<html::Div>, state: GridState) {
    let measure = move || {
        let width = grid.try_get_untracked().flatten().map(|grid| grid.client_width());
        let columns = width.zip(state.pitch()).and_then(|(width, pitch)| columns_in(width, pitch));
        let other = |columns: &usize| state.columns.try_get_untracked().is_some_and(|now| now != *columns);
        if let Some(columns) = columns.filter(other) {
            state.columns.set(columns);
        }
    };
    // Before the first time it is painted.
    request_animation_frame(measure);
    // Other rows change the grid's height, which the browser would call a fault while it is still telling of sizes.
    use_resize_observer(grid, move |_, _| request_animation_frame(measure));
}

/// What a key means now; nothing with one that makes it a command of the browser.
fn key_of(event: &KeyboardEvent, tray: Tray, state: GridState) -> Option<GridKey> {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return None;
    }
    let (at, columns) = (tray.at.get_untracked(), state.columns.get_untracked());
    tray.seeds.with_untracked(|seeds| meaning(&event.key(), seeds, at, columns))
}

fn follow(key: GridKey, tray: Tray, announcer: Announcer) {
    let at = tray.at.get_untracked();
    match key {
        GridKey::Point(seed) => tray.at.set(seed),
        GridKey::WorkOn => tray.work_on(at),
        GridKey::ToggleKeep => announcer.say(tray.toggle_keep(at)),
        GridKey::Lift(side) => tray.lift(at, side),
        GridKey::PutAway => announcer.say(tray.put_away(at)),
    }
}

/// Gives the sister pointed at the focus, once the rows stand.
fn focus_soon(tray: Tray, state: GridState) {
    queue_microtask(move || {
        if let Some(cell) = state.cell(tray.at.get_untracked()) {
            focus(Some(&cell));
        }
    });
}
