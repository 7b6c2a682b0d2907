//! Two sisters lifted and compared: side by side, or one over the other with an edge that is moved across them.

use super::{Laid, Tray};
use crate::choice::table_word;
use crate::dom::{El, el};
use crate::hand::Frame;
use crate::words;
use dappledome::base::scalar::Bounds;
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// What is lifted, if anything is.
pub fn pair(tray: Tray) -> El {
    el("div", "pair-place").holds(move || match tray.lifted.get() {
        [None, None] => Vec::new(),
        [Some(one), Some(other)] => vec![both(tray, one, other)],
        [Some(one), None] | [None, Some(one)] => vec![alone(tray, one)],
    })
}

fn alone(tray: Tray, seed: Seed) -> El {
    el("div", "pair")
        .with(el("div", "pair-discs").with(disc(tray, seed)))
        .with(el("p", "pair-said").says(words::LIFT_ANOTHER))
}

fn both(tray: Tray, one: Seed, other: Seed) -> El {
    let how = |laid: Laid, word: &'static str| {
        table_word(word, move || tray.how.set(laid)).live_flag("aria-pressed", move || tray.how.get() == laid)
    };
    let swap = table_word(words::SWAP, move || tray.lifted.update(|lifted| lifted.swap(0, 1)));
    let hows = el("div", "pair-hows")
        .is("role", "group")
        .is("aria-label", words::HOW_TO_COMPARE)
        .with(how(Laid::Beside, words::BESIDE))
        .with(how(Laid::Wipe, words::WIPE))
        .with(swap);
    let said = move || {
        tray.features.with(|known| match (known.get(&one), known.get(&other)) {
            (Some(a), Some(b)) => words::compared(tray.bench, (one, a), (other, b)),
            _ => String::new(),
        })
    };
    let discs = move || match tray.how.get() {
        Laid::Beside => vec![disc(tray, one), disc(tray, other)],
        Laid::Wipe => vec![wipe(tray, one, other)],
    };
    el("div", "pair")
        .with(el("div", "pair-discs").holds(discs))
        .with(hows)
        .with(el("p", "pair-said").is("role", "status").reads(said))
}

fn disc(tray: Tray, seed: Seed) -> El {
    el("div", "lifted-disc")
        .with(el("span", "round").with(tray.canvas(Frame::Lifted(seed))))
        .with(el("span", "sister-name").reads(move || words::seed_and_grams(tray.features, seed)))
}

/// One over the other: the left one up to the edge, the right one from there.
fn wipe(tray: Tray, one: Seed, other: Seed) -> El {
    let share = move || tray.edge.get() * 100.0;
    let edge = el("div", "wipe-edge")
        .is("role", "slider")
        .is("tabindex", "0")
        .is("aria-label", words::WIPE_EDGE)
        .is("aria-valuemin", "0")
        .is("aria-valuemax", "100")
        .live("aria-valuenow", move || fixed(share(), 0))
        .live("aria-valuetext", move || words::wiped(one, other, share()))
        .style("left", move || format!("{}%", fixed(share(), 2)))
        .on("keydown", move |event: &KeyboardEvent| key(tray, event));
    let over = el("span", "round over")
        .style("clip-path", move || format!("inset(0 0 0 {}%)", fixed(share(), 2)))
        .with(tray.canvas(Frame::Lifted(other)));
    let discs = el("div", "wipe")
        .on("pointerdown", move |event: &PointerEvent| pull(tray, event, true))
        .on("pointermove", move |event: &PointerEvent| pull(tray, event, false))
        .with(el("span", "round").with(tray.canvas(Frame::Lifted(one))))
        .with(over)
        .with(edge);
    let name = |seed: Seed| el("span", "").reads(move || words::seed_and_grams(tray.features, seed));
    el("div", "lifted-disc")
        .with(discs)
        .with(el("span", "sister-name wipe-names").with(name(one)).with(name(other)))
}

/// Moves the edge to the pointer while it is down.
fn pull(tray: Tray, event: &PointerEvent, begins: bool) {
    if event.buttons() & 1 == 0 {
        return;
    }
    let Some(place) = event.current_target().and_then(|place| place.dyn_into::<Element>().ok()) else {
        return;
    };
    if begins {
        // Without capture the drag ends at the disc's edge; nothing else is lost.
        let _ = place.set_pointer_capture(event.pointer_id());
    }
    let bounds = place.get_bounding_client_rect();
    let share = (f64::from(event.client_x()) - bounds.left()) / bounds.width().max(1.0);
    tray.edge.set(share.between(0.0, 1.0));
}

fn key(tray: Tray, event: &KeyboardEvent) {
    let step = if event.shift_key() { 0.01 } else { 0.05 };
    let by = |by: f64| tray.edge.update(|edge| *edge = (*edge + by).between(0.0, 1.0));
    match event.key().as_str() {
        "ArrowLeft" | "ArrowDown" => by(-step),
        "ArrowRight" | "ArrowUp" => by(step),
        "Home" => tray.edge.set(0.0),
        "End" => tray.edge.set(1.0),
        _ => return,
    }
    event.prevent_default();
}
