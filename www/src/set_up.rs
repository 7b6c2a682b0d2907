//! *Set-up*: units, frame, keys, and what this is. How the page is looked at is kept in this browser; it is no part of
//! any piece.

use super::choice::{named_choice, option};
use super::dom::{El, always, el, set};
use super::share::slip_head;
use super::state::Bench;
use super::{drafts, words};
use dappledome::base::shown::{Heat, Lengths, Units};
use leptos::prelude::*;

const LENGTHS: &str = "dappledome.lengths";
const HEAT: &str = "dappledome.heat";
const FRAME: &str = "dappledome.frame";

/// The frame around the table, which is the same grey by day in all of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Frame {
    /// Light paper.
    Light,
    /// Dark paper.
    Dark,
    /// As the system has it.
    #[default]
    System,
}

impl Frame {
    /// Its name in the style sheet and in what is kept.
    fn key(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
            Self::System => "system",
        }
    }
}

/// What the slip has unfolded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unfolded {
    Nothing,
    Keys,
    About,
}

/// The units chosen in this browser; mm and °C if none were.
pub fn kept_units() -> Units {
    Units {
        lengths: if kept(LENGTHS) == "in" { Lengths::Inches } else { Lengths::Millimeters },
        heat: if kept(HEAT) == "F" { Heat::Fahrenheit } else { Heat::Celsius },
    }
}

/// The frame chosen in this browser; the system's if none was.
pub fn kept_frame() -> Frame {
    let kept = kept(FRAME);
    [Frame::Light, Frame::Dark].into_iter().find(|frame| frame.key() == kept).unwrap_or_default()
}

fn kept(name: &str) -> String {
    drafts::of_browser().and_then(|storage| storage.get_item(name).ok().flatten()).unwrap_or_default()
}

fn keep(name: &str, value: &str) {
    if let Some(storage) = drafts::of_browser() {
        // Where nothing can be kept the choice holds for this visit.
        let _ = storage.set_item(name, value);
    }
}

/// Keeps the frame of the whole document as it was chosen.
pub fn keep_true(bench: Bench) {
    always(move || {
        let frame = bench.frame.get();
        if let Some(root) = document().document_element() {
            set(&root, "data-frame", Some(frame.key()));
        }
    });
}

/// The slip.
pub fn set_up(bench: Bench) -> El {
    let unfolded = RwSignal::new(Unfolded::Nothing);
    let unfold = move |word: &str, which: Unfolded| {
        let turn = move || {
            unfolded.update(|now| *now = if *now == which { Unfolded::Nothing } else { which });
        };
        super::choice::word(word, turn).live_flag("aria-expanded", move || unfolded.get() == which)
    };
    let more = el("p", "set-up-more")
        .with(unfold(words::KEYS, Unfolded::Keys))
        .with(unfold(words::ABOUT, Unfolded::About));
    el("div", "slip set-up")
        .with(slip_head(bench, words::SET_UP))
        .with(named_choice(words::LENGTHS, lengths(bench)))
        .with(named_choice(words::TEMPERATURES, heat(bench)))
        .with(named_choice(words::FRAME, frames(bench)))
        .with(more)
        .when(move || unfolded.get() == Unfolded::Keys, move || keys(bench))
        .when(move || unfolded.get() == Unfolded::About, about)
}

fn lengths(bench: Bench) -> [El; 2] {
    let all = [(Lengths::Millimeters, words::MILLIMETERS, "mm"), (Lengths::Inches, words::INCHES, "in")];
    let choose = move |one| bench.units.update(|units| units.lengths = one);
    options(LENGTHS, all, move || bench.units.get().lengths, choose)
}

fn heat(bench: Bench) -> [El; 2] {
    let all = [(Heat::Celsius, words::CELSIUS, "C"), (Heat::Fahrenheit, words::FAHRENHEIT, "F")];
    let choose = move |one| bench.units.update(|units| units.heat = one);
    options(HEAT, all, move || bench.units.get().heat, choose)
}

fn frames(bench: Bench) -> [El; 3] {
    let all = [
        (Frame::Light, words::FRAME_LIGHT),
        (Frame::Dark, words::FRAME_DARK),
        (Frame::System, words::FRAME_SYSTEM),
    ];
    let all = all.map(|(one, word)| (one, word, one.key()));
    options(FRAME, all, move || bench.frame.get(), move |one| bench.frame.set(one))
}

/// One option for each of `all`, which is its value, its word and what is kept under `name` when it is chosen.
fn options<T: Copy + PartialEq + 'static, const N: usize>(
    name: &'static str,
    all: [(T, &'static str, &'static str); N],
    now: impl Fn() -> T + Copy + 'static,
    choose: impl Fn(T) + Copy + 'static,
) -> [El; N] {
    all.map(|(one, word, key)| {
        let chosen = move || {
            keep(name, key);
            choose(one);
        };
        option(word, move || now() == one, chosen)
    })
}

/// The keys as a table: where, and what they do there.
fn keys(bench: Bench) -> El {
    let rows = words::ALL_KEYS.iter().map(|(place, keys)| {
        let does = el("td", "").reads(move || bench.shown(keys));
        el("tr", "").with(el("th", "").is("scope", "row").says(place)).with(does)
    });
    let table = el("table", "keys").with(el("tbody", "").with_all(rows));
    // It can be longer than its place, so that it must be reached to be scrolled by keys.
    el("div", "keys-place").is("role", "group").is("tabindex", "0").is("aria-label", words::KEYS).with(table)
}

fn about() -> El {
    el("div", "about")
        .with(el("p", "").says(&words::about(env!("CARGO_PKG_VERSION"))))
        .with(el("p", "").says(words::NOTHING_LEAVES))
}
