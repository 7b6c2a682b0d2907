//! The sisters in staggered rows: pointed at, kept, put away, lifted, taken up, by pointer or by keys.

use super::cell::SisterCell;
use super::columns::{Fit, Room, row_of};
use super::keys::{GridKey, meaning};
use super::state::GridState;
use crate::dom::focus::focus;
use crate::state::announcer::Announcer;
use crate::state::tray::Tray;
use crate::words;
use dappledome::base::units::fixed;
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;
use leptos_use_resize_observer::use_resize_observer;
use web_sys::{CssStyleDeclaration, HtmlDivElement};

/// The grid.
#[component]
pub fn SisterGrid() -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let state = GridState::new();
    let grid = NodeRef::<html::Div>::new();
    keep_measured(grid, state, tray);
    // Whoever opens the tray goes on with the keys.
    grid.on_load(move |_| focus_soon(tray, state));
    let columns = Memo::new(move |_| state.fit.get().columns);
    let rows = Memo::new(move |_| tray.seeds.read().len().div_ceil(columns.get()));
    let px = move |of: fn(Fit) -> f64| format!("{}px", fixed(of(state.fit.get()), 1));
    let pressed = move |event: KeyboardEvent| {
        if let Some(key) = key_of(&event, tray, state) {
            event.prevent_default();
            follow(key, tray, announcer);
            focus_soon(tray, state);
        }
    };
    view! {
        <div
            class="tray-grid"
            role="grid"
            aria-label=words::SISTERS
            style=("--sister", move || px(|fit| fit.disc))
            style=("--pitch", move || px(|fit| fit.pitch))
            style=("--columns", move || columns.get().to_string())
            node_ref=grid
            on:keydown=pressed
        >
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
    let seeds = Memo::new(move |_| row_of(&tray.seeds.read(), state.fit.get().columns, row).to_vec());
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

/// Keeps the discs as large as there is room for.
fn keep_measured(grid: NodeRef<html::Div>, state: GridState, tray: Tray) {
    let measure = move || {
        let Some(room) = grid.try_get_untracked().flatten().and_then(|grid| room_in(&grid)) else { return };
        let fit = tray.seeds.try_with_untracked(|seeds| Fit::new(room, seeds.len())).flatten();
        let other = |fit: &Fit| state.fit.try_get_untracked().is_some_and(|now| now != *fit);
        if let Some(fit) = fit.filter(other) {
            state.fit.set(fit);
        }
    };
    // Before the first time it is painted, and whenever more or fewer lie on it.
    Effect::new(move || {
        tray.seeds.read();
        request_animation_frame(measure);
    });
    // Other rows change the grid's height, which the browser would call a fault while it is still telling of sizes.
    use_resize_observer(grid, move |_, _| request_animation_frame(measure));
}

/// The room inside the grid's padding. One that does not scroll grows with its discs.
fn room_in(grid: &HtmlDivElement) -> Option<Room> {
    let style = window().get_computed_style(grid).ok()??;
    let root = window().get_computed_style(&document().document_element()?).ok()??;
    let px = |style: &CssStyleDeclaration, name: &str| {
        let value = style.get_property_value(name).unwrap_or_default();
        value.trim_end_matches("px").parse::<f64>().unwrap_or(0.0)
    };
    let inside = |size: i32, one: &str, other: &str| f64::from(size) - px(&style, one) - px(&style, other);
    let scrolls = style.get_property_value("overflow-y").is_ok_and(|how| how == "auto");
    Some(Room {
        width: inside(grid.client_width(), "padding-left", "padding-right"),
        height: scrolls.then(|| inside(grid.client_height(), "padding-top", "padding-bottom")),
        rem: px(&root, "font-size").max(1.0),
    })
}

/// What a key means now; nothing with one that makes it a command of the browser.
fn key_of(event: &KeyboardEvent, tray: Tray, state: GridState) -> Option<GridKey> {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return None;
    }
    let (at, columns) = (tray.at.get_untracked(), state.fit.get_untracked().columns);
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
        if let Some(cell) = tray.reached.get_untracked().and_then(|seed| state.cell(seed)) {
            focus(Some(&cell));
        }
    });
}
