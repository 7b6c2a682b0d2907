//! The corner of a sponge in the hand: the only mode of the page, until *Done* or Esc.

use super::ByHand;
use super::drag::{BY_KEYS, Grip};
use super::handles::arrow;
use super::map::{Map, percent};
use crate::dom::{El, el, focus};
use crate::words;
use dappledome::base::scalar::Bounds;
use dappledome::picture::view::Stage;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// Widths of the bared line to choose from, mm.
pub const WIDTHS: [f64; 3] = [8.0, 16.0, 30.0];

/// The sponge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sponging {
    /// Width of the bared line, mm.
    pub width: f64,
    /// Where it is over the disc, mm.
    at: [f32; 2],
}

impl ByHand {
    /// The sponge in the hand; none on the dome, which cannot be rubbed.
    pub(super) fn sponging(&self) -> Option<Sponging> {
        let flat = self.bench.stage.get() != Stage::Domed;
        self.sponge.get().filter(|_| flat)
    }

    /// Takes the sponge up, over the flat powder.
    pub(super) fn take_sponge(&self) {
        if self.bench.stage.get_untracked() == Stage::Domed {
            self.bench.stage.set(Stage::Sifted);
        }
        self.sponge.set(Some(Sponging { width: WIDTHS[1], at: [0.0; 2] }));
        self.bench.said.set(words::SPONGE_KEYS.into());
        focus_glass();
    }

    /// Takes a sponge of another width.
    pub(super) fn widen(&self, width: f64) {
        self.sponge.update(|sponge| sponge.iter_mut().for_each(|sponge| sponge.width = width));
    }

    /// Lays it aside.
    pub(super) fn lay_sponge_aside(&self) {
        self.let_go();
        self.sponge.set(None);
        focus_glass();
    }

    pub(super) fn hover(&self, place: [f32; 2]) {
        self.sponge.update(|sponge| sponge.iter_mut().for_each(|sponge| sponge.at = place));
    }

    /// A key on the glass; whether it was about the layout by hand.
    pub fn key(&self, event: &KeyboardEvent) -> bool {
        let Some(sponge) = untrack(|| self.sponging()) else {
            return event.key() == "Escape" && self.put_back();
        };
        match event.key().as_str() {
            "Escape" if self.put_back() => {}
            "Escape" => self.lay_sponge_aside(),
            " " if self.drag.with_untracked(Option::is_some) => self.let_go(),
            " " => {
                let seen = Map::now(self.bench).seen(sponge.at);
                self.begin(Grip::Rub(sponge.width), BY_KEYS, seen, sponge.at);
                self.rub_to(sponge.at);
            }
            _ => {
                let Some(way) = arrow(event, 2.0, 0.5) else { return false };
                let map = Map::now(self.bench);
                let [dx, dy] = map.way(way);
                let most = map.radius;
                let to = [sponge.at[0] + dx, sponge.at[1] + dy].map(|mm| mm.between(-most, most));
                self.hover(to);
                self.rub_to(to);
            }
        }
        true
    }
}

fn focus_glass() {
    focus(document().query_selector("[role=application]").ok().flatten().as_ref());
}

/// Its outline under the pointer.
pub fn ring(hand: ByHand) -> El {
    let seen = move || {
        let map = Map::new(hand.bench);
        hand.sponging().map_or(((0.5, 0.5), 0.0), |one| (map.seen(one.at), one.width as f32 / map.side))
    };
    el("span", "sponge-ring")
        .is("aria-hidden", "true")
        .class_when("hidden", move || hand.sponging().is_none())
        .class_when("pressed", move || hand.drag.with(Option::is_some))
        .style("left", move || percent(seen().0.0))
        .style("top", move || percent(seen().0.1))
        .style("width", move || percent(seen().1))
}
