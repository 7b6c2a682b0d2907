//! Rubbing powder off: the only mode of the page, until *Done* or Esc.

use super::drag::{Contact, Grip};
use super::dragging::{begin, hover, let_go, put_back, rub_to};
use super::state::HandLayout;
use super::tool::HeldSponge;
use crate::areas::viewer::arrows::arrow;
use crate::dom::focus::focus;
use crate::words;
use dappledome::picture::view::Stage;
use leptos::prelude::*;
use web_sys::{Element, KeyboardEvent};

/// Takes the sponge up, over the flat powder.
pub fn take_up(layout: HandLayout) {
    if layout.viewing.stage.get_untracked() == Stage::Domed {
        layout.viewing.stage.set(Stage::Sifted);
    }
    layout.sponge.set(Some(HeldSponge::new()));
    layout.announcer.say(words::SPONGE_KEYS);
    focus_glass(layout);
}

/// Takes a sponge of another width, mm.
pub fn widen(layout: HandLayout, width: f64) {
    layout.sponge.update(|sponge| sponge.iter_mut().for_each(|sponge| sponge.width = width));
}

/// Lays it aside.
pub fn lay_aside(layout: HandLayout) {
    let_go(layout);
    layout.sponge.set(None);
    focus_glass(layout);
}

/// A key on the glass; whether it was about the layout by hand.
pub fn key(layout: HandLayout, event: &KeyboardEvent) -> bool {
    let Some(sponge) = untrack(|| layout.sponging()) else {
        return event.key() == "Escape" && put_back(layout);
    };
    match event.key().as_str() {
        "Escape" if put_back(layout) => {}
        "Escape" => lay_aside(layout),
        " " if layout.drag.with_untracked(Option::is_some) => let_go(layout),
        " " => press_down(layout, sponge),
        _ => {
            let Some(way) = arrow(event, 2.0, 0.5) else { return false };
            let map = layout.map_now();
            let to = sponge.after(map.way(way), map.radius);
            hover(layout, to);
            rub_to(layout, to);
        }
    }
    true
}

fn press_down(layout: HandLayout, sponge: HeldSponge) {
    let seen = layout.map_now().seen(sponge.at);
    let at = Contact { pointer: None, px: (0, 0), seen, place: sponge.at };
    begin(layout, Grip::Rub(sponge.width), &at);
    rub_to(layout, sponge.at);
}

fn focus_glass(layout: HandLayout) {
    focus(layout.glass.get_untracked().as_ref().map(AsRef::<Element>::as_ref));
}
