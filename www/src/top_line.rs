//! The table's top line: what was done, to be taken back, and the ways to the shelf, paper, sharing and set-up. Where there is
//! little room, all but *Undo* is behind *More*.

use super::choice::table_word;
use super::dom::{El, el};
use super::files;
use super::state::{Area, Bench, Slip};
use super::words;
use leptos::prelude::*;

/// The line.
pub fn top_line(bench: Bench) -> El {
    let names = bench.history.names;
    let unfolded = RwSignal::new(false);
    let undo = move || {
        let what = move || names.with(|names| words::after(names.back.as_ref()));
        table_word(words::UNDO, move || bench.step_by(-1)).with(el("span", "wide-only").reads(what))
    };
    let redo = move || table_word(words::REDO, move || bench.step_by(1));
    let more = table_word(words::MORE, move || unfolded.update(|unfolded| *unfolded = !*unfolded))
        .live_flag("aria-expanded", move || unfolded.get());
    let folded = el("div", "more-words")
        .class_when("unfolded", move || unfolded.get())
        .press(move || unfolded.set(false))
        .when(move || names.with(|names| names.forward.is_some()), redo)
        .when(move || names.with(|names| names.count > 1), move || slip(bench, words::STEPS, Slip::Steps))
        .with(el("span", "gap"))
        .with(area(bench, words::SHELF, Area::Shelf))
        .with(area(bench, words::PAPER, Area::Paper))
        .with(slip(bench, words::SHARE, Slip::Share))
        .with(slip(bench, words::SET_UP, Slip::SetUp));
    el("div", "top-line")
        .when(move || names.with(|names| names.back.is_some()), undo)
        .with(el("span", "more").with(more))
        .with(folded)
        .with(files::accept(bench))
}

fn slip(bench: Bench, name: &str, slip: Slip) -> El {
    let (this, other) = (slip.clone(), slip);
    table_word(name, move || bench.turn_slip(&this))
        .live_flag("aria-expanded", move || bench.slip.with(|slip| *slip == other))
}

fn area(bench: Bench, name: &str, area: Area) -> El {
    table_word(name, move || bench.area.set(area))
}
