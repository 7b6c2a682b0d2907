//! The sisters in staggered rows: pointed at, kept, put away, lifted, taken up, by pointer or by keys.

use super::Tray;
use crate::dom::{El, always, el, focus, memo, on_window};
use crate::hand::Frame;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::prelude::*;
use web_sys::{Event, KeyboardEvent};

/// Most discs in a row.
const MOST_COLUMNS: usize = 12;

/// The grid.
pub fn grid(tray: Tray) -> El {
    let place = el("div", "tray-grid").is("role", "grid").is("aria-label", words::SISTERS);
    let columns = columns(&place);
    let rows = memo(move || {
        let seeds = tray.seeds.get();
        seeds.chunks(columns.get().max(1)).map(<[Seed]>::to_vec).collect::<Vec<_>>()
    });
    let place_again = place.clone();
    always(move || {
        rows.track();
        let place = place_again.clone();
        // The rows are made anew; the focus belongs on the same sister.
        let focused = place.has_focus();
        queue_microtask(move || {
            if focused {
                focus_on(&place, tray.at.get_untracked());
            }
        });
    });
    let itself = place.clone();
    place
        .on("keydown", move |event: &KeyboardEvent| {
            if key(tray, columns.get_untracked(), event) {
                event.prevent_default();
                let place = itself.clone();
                queue_microtask(move || focus_on(&place, tray.at.get_untracked()));
            }
        })
        .holds(move || {
            rows.get()
                .into_iter()
                .map(|row| {
                    el("div", "tray-row")
                        .is("role", "row")
                        .with_all(row.into_iter().map(|seed| cell(tray, seed)))
                })
                .collect()
        })
}

/// How many discs have room beside each other: one less than that, for every second row stands half a disc in.
fn columns(place: &El) -> RwSignal<usize> {
    let columns = RwSignal::new(6);
    let place = place.clone();
    let measure = move || {
        let cell = place.element().query_selector(".sister").ok().flatten();
        let pitch = cell.map_or(0, |cell| cell.client_width());
        // What is left of the padding at both sides, px.
        let width = place.element().client_width() - 16;
        if pitch == 0 || width <= 0 {
            return;
        }
        let now = ((f64::from(width) / f64::from(pitch) - 0.5) as usize).clamp(2, MOST_COLUMNS);
        if columns.try_get_untracked().is_some_and(|then| then != now) {
            columns.set(now);
        }
    };
    let at_first = measure.clone();
    request_animation_frame(at_first);
    on_window("resize", move |_: &Event| measure());
    columns
}

fn cell(tray: Tray, seed: Seed) -> El {
    let bench = tray.bench;
    let letter = move || bench.sisters.with(|sisters| sisters.letter(seed));
    let lifted = move || tray.lifted.get().contains(&Some(seed));
    let known = move || tray.features.with(|known| known.contains_key(&seed));
    let label = move || {
        let features = tray.features.with(|known| known.get(&seed).cloned());
        words::sister_cell(bench, seed, letter().as_deref(), features.as_ref())
    };
    let name = el("span", "sister-name")
        .is("aria-hidden", "true")
        .with(el("b", "").reads(move || letter().map_or_else(String::new, |letter| format!("{letter} "))))
        .says(&seed.to_string());
    el("div", "sister")
        .is("role", "gridcell")
        .is("data-seed", &seed.to_string())
        .live("aria-label", label)
        .live_flag("aria-selected", move || tray.at.get() == seed)
        .live("tabindex", move || if tray.at.get() == seed { "0".into() } else { "-1".into() })
        .class_when("pointed", move || tray.at.get() == seed)
        .class_when("lifted", lifted)
        .class_when("coming", move || !known())
        .on("click", move |_: &Event| tray.at.set(seed))
        .on("dblclick", move |_: &Event| tray.work_on(seed))
        .with(el("span", "round").with(tray.canvas(Frame::Sister(seed))))
        .with(name)
}

fn focus_on(place: &El, seed: Seed) {
    focus(place.element().query_selector(&format!("[data-seed='{seed}']")).ok().flatten().as_ref());
}

/// A key on the grid; whether it meant something.
fn key(tray: Tray, columns: usize, event: &KeyboardEvent) -> bool {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return false;
    }
    let seeds = tray.seeds.get_untracked();
    let at = tray.at.get_untracked();
    let here = seeds.iter().position(|seed| *seed == at).unwrap_or(0);
    let go = |to: usize| tray.at.set(seeds[to.min(seeds.len().saturating_sub(1))]);
    match event.key().as_str() {
        _ if seeds.is_empty() => return false,
        "ArrowRight" => go(here + 1),
        "ArrowLeft" => go(here.saturating_sub(1)),
        "ArrowDown" => go(here + columns),
        "ArrowUp" => go(here.checked_sub(columns).unwrap_or(here)),
        "Home" => go(0),
        "End" => go(seeds.len() - 1),
        "Enter" => tray.work_on(at),
        " " => tray.turn_keep(at),
        "1" => tray.lift(at, 0),
        "2" => tray.lift(at, 1),
        "Delete" => tray.put_away(at),
        _ => return false,
    }
    true
}
