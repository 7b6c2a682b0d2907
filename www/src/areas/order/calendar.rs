//! The days on which it is made: bars that are moved by the day, with the pointer and with keys. Where a bar comes to lie says the
//! engine; a day that was chosen is a wish that the order keeps.

use super::axis::{Axis, Bar, Column};
use super::rows::Row;
use super::state::{Lifted, OrderState};
use crate::words;
use dappledome::orders::dates;
use dappledome::orders::model::Wish;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// The least room in which days lie side by side, px, as the style sheet has it.
const LEAST_ROOM: i32 = 400;

/// The days, and what is done on each.
#[component]
pub fn Calendar(
    /// The order.
    state: OrderState,
    /// Its rows.
    rows: Memo<Vec<Row>>,
    /// Its days.
    axis: Memo<Axis>,
) -> impl IntoView {
    let room = NodeRef::<html::Div>::new();
    let list = NodeRef::<html::Div>::new();
    let lift = move |event: PointerEvent| {
        // Where the days are a list there is nowhere to drag to.
        if room.get_untracked().is_none_or(|room| room.client_width() < LEAST_ROOM) {
            return;
        }
        let bar = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let at = bar.and_then(|bar| bar.closest("[data-at]").ok().flatten()?.get_attribute("data-at"));
        let Some(at) = at.and_then(|at| at.parse::<usize>().ok()) else { return };
        if let (Some(list), Some(day)) = (list.get_untracked(), day_of(axis, at)) {
            // A pointer that is gone needs no capture.
            let _ = list.set_pointer_capture(event.pointer_id());
            state.at.set(at);
            state.lifted.set(Some(Lifted { at, day }));
        }
    };
    let follow = move |event: PointerEvent| {
        let (Some(lifted), Some(room)) = (state.lifted.get_untracked(), room.get_untracked()) else { return };
        let bounds = room.get_bounding_client_rect();
        let place = (f64::from(event.client_x()) - bounds.left()) / bounds.width().max(1.0);
        let day = axis.with_untracked(|axis| axis.at(place));
        if day != lifted.day {
            state.lifted.set(Some(Lifted { day, ..lifted }));
        }
    };
    let press = move |event: KeyboardEvent| {
        if keys(state, axis, &event.key()) {
            event.prevent_default();
            event.stop_propagation();
        }
    };
    view! {
        <div class="order-days" node_ref=room>
            {move || columns(&axis.read())}
            <div
                class="order-bars"
                node_ref=list
                role="listbox"
                tabindex="0"
                aria-label=words::DAYS
                aria-description=words::DAYS_KEYS
                aria-activedescendant=move || bar_id(state.at.get())
                on:pointerdown=lift
                on:pointermove=follow
                on:pointerup=move |_| set_down(state, axis)
                on:pointercancel=move |_| state.lifted.set(None)
                on:keydown=press
                on:blur=move |_| state.lifted.set(None)
                style:grid-template-rows=move || heights(&rows.read())
            >
                {move || bars(&axis.read(), &rows.read())}
                {move || here(state, &axis.read(), &rows.read())}
            </div>
        </div>
    }
}

/// The least width of a day with a head, of all the room 1.
const LEAST_HEAD: f64 = 0.06;

fn bar_id(at: usize) -> String {
    format!("doing-{at}")
}

fn day_of(axis: Memo<Axis>, at: usize) -> Option<usize> {
    axis.with_untracked(|axis| axis.bars.get(at).map(|bar| bar.day))
}

fn share(of: f64) -> String {
    format!("{}%", of * 100.0)
}

/// Heads of the days, those without work in a tone, and the line of the due day. A day that has neither is not drawn: there may be
/// half a year of them.
fn columns(axis: &Axis) -> AnyView {
    let widest = axis.columns.first().map_or(1.0, |column| column.wide);
    let days = axis.columns.iter().enumerate().filter_map(|(at, column)| {
        // Where there is no room for every head, each week has one.
        let room = column.wide >= widest && widest >= LEAST_HEAD;
        let headed = room || dates::begins_a_week(column.date) || at == 0;
        (headed || !column.works).then(|| day(column, headed))
    });
    let due = axis.due.map(|due| {
        view! {
            <div class="order-due" style:left=share(due)>
                <span>{words::DUE}</span>
            </div>
        }
    });
    view! {
        {days.collect_view()}
        {due}
    }
    .into_any()
}

fn day(column: &Column, headed: bool) -> impl IntoView {
    view! {
        <div
            class="order-day"
            class:rest=!column.works
            style:left=share(column.left)
            style:width=share(column.wide)
        >
            <span>{headed.then(|| words::day_head(column.date))}</span>
        </div>
    }
}

fn bars(axis: &Axis, rows: &[Row]) -> AnyView {
    let bars = axis.bars.iter().enumerate().map(|bar| one_bar(rows, bar));
    let last = rows.len();
    let rest = axis.rest.map(|(from, to)| {
        view! {
            <div
                class="order-rest"
                style:grid-row=last.to_string()
                style:left=share(from)
                style:width=share(to - from)
            ></div>
        }
    });
    view! {
        {bars.collect_view()}
        {rest}
    }
    .into_any()
}

/// The heights of the rows, as the recipe has them.
fn heights(rows: &[Row]) -> String {
    let one = |row: &Row| if row.apart { "var(--apart) " } else { "var(--row) " };
    rows.iter().map(one).collect()
}

/// The rows that a doing belongs to, counted from 1.
fn rows_of(rows: &[Row], bar: &Bar) -> Vec<usize> {
    (1..=rows.len()).filter(|row| rows[row - 1].what == bar.what).collect()
}

/// A doing in every row that it belongs to; the first of them is what the keys are at. There may be hundreds: nothing of one changes.
fn one_bar(rows: &[Row], (at, bar): (usize, &Bar)) -> AnyView {
    let parts = rows_of(rows, bar).into_iter().enumerate().map(|(number, row)| {
        let first = number == 0;
        view! {
            <div
                class=if bar.fires { "order-bar fires" } else { "order-bar" }
                id=first.then(|| bar_id(at))
                role=if first { "option" } else { "presentation" }
                aria-label=first.then(|| bar.said.clone())
                title=bar.said.clone()
                data-at=at.to_string()
                style:grid-row=row.to_string()
                style:left=share(bar.left)
                style:width=share(bar.wide)
            >
                {(bar.pieces > 0).then(|| bar.pieces.to_string())}
            </div>
        }
    });
    parts.collect_view().into_any()
}

/// Around the bar that the keys are at; once it is lifted, over the day that it is held over.
fn here(state: OrderState, axis: &Axis, rows: &[Row]) -> Option<AnyView> {
    let lifted = state.lifted.get();
    let bar = axis.bars.get(lifted.map_or(state.at.get(), |lifted| lifted.at))?;
    let column = |day: usize| axis.columns.get(day).map(|column| column.left);
    let left = lifted.and_then(|lifted| Some(bar.left - column(bar.day)? + column(lifted.day)?));
    let row = *rows_of(rows, bar).first()?;
    Some(
        view! {
            <div
                class="order-here"
                class:lifted=lifted.is_some()
                style:grid-row=row.to_string()
                style:left=share(left.unwrap_or(bar.left))
                style:width=share(bar.wide)
            ></div>
        }
        .into_any(),
    )
}

/// Does what a key means; whether it meant anything.
fn keys(state: OrderState, axis: Memo<Axis>, key: &str) -> bool {
    let last = axis.with_untracked(|axis| axis.bars.len()).saturating_sub(1);
    let at = state.at.get_untracked().min(last);
    let lifted = state.lifted.get_untracked();
    let walk = |to: usize| {
        state.at.set(to);
        state.announcer.say(said(axis, to));
        true
    };
    match (key, lifted) {
        ("ArrowLeft" | "ArrowUp", None) => walk(at.saturating_sub(1)),
        ("ArrowRight" | "ArrowDown", None) => walk((at + 1).min(last)),
        ("Home", None) => walk(0),
        ("End", None) => walk(last),
        (" " | "Enter", None) => {
            let day = day_of(axis, at);
            state.at.set(at);
            state.lifted.set(day.map(|day| Lifted { at, day }));
            say_lifted(state, axis);
            true
        }
        ("ArrowLeft", Some(lifted)) => carry(state, axis, lifted, lifted.day.saturating_sub(1)),
        ("ArrowRight", Some(lifted)) => carry(state, axis, lifted, lifted.day + 1),
        (" " | "Enter", Some(_)) => {
            set_down(state, axis);
            true
        }
        ("Escape", Some(_)) => {
            state.lifted.set(None);
            true
        }
        _ => false,
    }
}

fn said(axis: Memo<Axis>, at: usize) -> String {
    axis.with_untracked(|axis| axis.bars.get(at).map_or_else(String::new, |bar| bar.said.clone()))
}

fn carry(state: OrderState, axis: Memo<Axis>, lifted: Lifted, day: usize) -> bool {
    let day = day.min(axis.with_untracked(|axis| axis.columns.len()).saturating_sub(1));
    state.lifted.set(Some(Lifted { day, ..lifted }));
    say_lifted(state, axis);
    true
}

fn say_lifted(state: OrderState, axis: Memo<Axis>) {
    let said = state.lifted.get_untracked().and_then(|lifted| {
        axis.with_untracked(|axis| {
            Some(words::lifted(axis.bars.get(lifted.at)?.what, axis.columns.get(lifted.day)?.date))
        })
    });
    if let Some(said) = said {
        state.announcer.say(said);
    }
}

/// Sets the lifted bar down: the day that it lies over is a wish from now on.
fn set_down(state: OrderState, axis: Memo<Axis>) {
    let Some(lifted) = state.lifted.try_update(Option::take).flatten() else { return };
    let found = axis.with_untracked(|axis| {
        let bar = axis.bars.get(lifted.at)?;
        (bar.day != lifted.day).then_some((
            bar.what,
            bar.after,
            axis.columns.get(lifted.day)?.date,
            lifted.day,
        ))
    });
    let Some((what, after, not_before, day)) = found else { return };
    state.orders.say_moved((what, after));
    state.edit(words::DID_DAYS, |order| {
        order.wishes.retain(|wish| (wish.what, wish.after) != (what, after));
        // Nothing is begun before today anyway.
        if day > 0 {
            order.wishes.push(Wish { what, after, not_before });
        }
    });
}
