//! What the keyboard takes hold of: a button over each thing, and the knob on the rim as a slider; and what is said
//! beside the pointer.

use super::drag::Grip;
use super::map::{Map, percent};
use super::{ByHand, Which};
use crate::dom::{El, el, memo};
use crate::words;
use dappledome::base::scalar::sin_cos;
use dappledome::base::units::Degrees;
use leptos::prelude::*;
use web_sys::{Event, KeyboardEvent};

/// Handles, knob and label.
pub fn handles(hand: ByHand) -> El {
    let keys = memo(move || hand.things.with(|things| things.iter().map(|thing| thing.which).collect()));
    el("div", "hand-handles")
        .each(keys, move |which| handle(hand, which))
        .when(move || hand.coat().is_some(), move || knob(hand))
        .with(label(hand))
        .with(el("p", "unseen").is("id", "hand-keys").says(words::HAND_KEYS))
}

/// Puts an element where a place of the disc is seen.
fn at(element: El, hand: ByHand, place: impl Fn() -> [f32; 2] + Copy + Send + Sync + 'static) -> El {
    let seen = memo(move || Map::new(hand.bench).seen(place()));
    element.style("left", move || percent(seen.get().0)).style("top", move || percent(seen.get().1))
}

fn handle(hand: ByHand, which: Which) -> El {
    let middle = move || hand.of_thing(which, |thing| thing.middle).unwrap_or_default();
    let button = el("button", "hand-handle")
        .is("aria-describedby", "hand-keys")
        .live("aria-label", move || hand.of_thing(which, |thing| thing.name.clone()).unwrap_or_default())
        .on("focus", move |_: &Event| hand.focused.set(Some(which)))
        .on("blur", move |_: &Event| {
            if hand.focused.get_untracked() == Some(which) {
                hand.focused.set(None);
            }
        })
        .on("keydown", move |event: &KeyboardEvent| key(hand, which, event));
    at(button, hand, middle)
}

fn key(hand: ByHand, which: Which, event: &KeyboardEvent) {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    match (event.key().as_str(), arrow(event, 1.0, 0.2)) {
        (_, Some(way)) => hand.shift(which, Map::now(hand.bench).way(way).map(f64::from)),
        ("Delete" | "Backspace", _) => hand.take_off(which),
        // A button's own keys, which would reach the glass.
        ("Enter" | " ", _) => {}
        ("Escape", _) if hand.put_back() => {}
        _ => return,
    }
    event.prevent_default();
    event.stop_propagation();
}

/// The way that an arrow means, as it is seen.
pub(super) fn arrow(event: &KeyboardEvent, step: f32, fine: f32) -> Option<[f32; 2]> {
    let by = if event.shift_key() { fine } else { step };
    match event.key().as_str() {
        "ArrowLeft" => Some([-by, 0.0]),
        "ArrowRight" => Some([by, 0.0]),
        "ArrowUp" => Some([0.0, by]),
        "ArrowDown" => Some([0.0, -by]),
        _ => None,
    }
}

impl ByHand {
    /// How far the open coat is turned, degrees.
    pub(super) fn turn_of_coat(&self) -> Option<f64> {
        let id = self.coat()?;
        self.bench.recipe.with(|recipe| recipe.coat(id).map(|coat| coat.layout.turned.0))
    }

    fn turn_by(&self, degrees: f64) {
        let Some(id) = untrack(|| self.coat()) else { return };
        let name = words::turn_step(&untrack(|| self.powder()));
        self.bench.edit(&name, &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                coat.layout.turned = Degrees((coat.layout.turned.0 + degrees).rem_euclid(360.0));
            }
        });
    }

    pub(super) fn powder(&self) -> String {
        super::coat_name(self.bench, self.laying.get())
    }
}

fn knob(hand: ByHand) -> El {
    let place = move || {
        let (sin, cos) = sin_cos((90.0 + hand.turn_of_coat().unwrap_or(0.0)).to_radians());
        let out = 1.05 * Map::new(hand.bench).radius;
        [out * cos as f32, out * sin as f32]
    };
    let turned = move || hand.turn_of_coat().unwrap_or(0.0);
    let knob = el("button", "hand-knob")
        .is("role", "slider")
        .is("aria-valuemin", "0")
        .is("aria-valuemax", "359")
        .live("aria-label", move || words::knob(&hand.powder()))
        .live("aria-valuenow", move || turned().to_string())
        .live("aria-valuetext", move || words::turned(&hand.powder(), turned()))
        .on("keydown", move |event: &KeyboardEvent| {
            let by = if event.shift_key() { 15.0 } else { 1.0 };
            match event.key().as_str() {
                // As the knob at the top goes: to the left is counterclockwise.
                "ArrowLeft" | "ArrowUp" => hand.turn_by(by),
                "ArrowRight" | "ArrowDown" => hand.turn_by(-by),
                "Escape" if hand.put_back() => {}
                _ => return,
            }
            event.prevent_default();
            event.stop_propagation();
        });
    at(knob, hand, place)
}

/// What is under the finger, said beside it.
fn label(hand: ByHand) -> El {
    let says = move || {
        hand.drag.with(|drag| {
            let drag = drag.as_ref().filter(|drag| drag.moved)?;
            match drag.grip {
                Grip::Move(_, from) => {
                    let map = Map::new(hand.bench);
                    Some(words::moved(from, drag.by, |way| map.way_seen(way)))
                }
                Grip::Turn(_) => Some(words::turned(&hand.powder(), drag.turned())),
                Grip::Rub(_) => None,
            }
        })
    };
    let seen = move || hand.drag.with(|drag| drag.as_ref().map_or((0.5, 0.5), |drag| drag.seen));
    el("span", "hand-label")
        .is("aria-hidden", "true")
        .class_when("hidden", move || says().is_none())
        .style("left", move || percent(seen().0))
        .style("top", move || percent(seen().1))
        .reads(move || says().unwrap_or_default())
}
