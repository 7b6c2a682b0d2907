//! The marks on the flat glass, like wax pencil: outlines of what can be moved, and ticks around the rim.

use super::drag::Grip;
use super::map::Map;
use super::{ByHand, Laying, Thing};
use crate::dom::{El, memo, svg};
use dappledome::base::scalar::sin_cos;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// One tick in so many degrees.
const TICK: i32 = 15;

/// All marks.
pub fn marks(hand: ByHand) -> El {
    let map = memo(move || Map::new(hand.bench));
    let drawing = move || {
        let things = hand.things.get();
        things.iter().map(|thing| outline(hand, thing)).collect()
    };
    let outlines = svg("g", "outlines").live("transform", move || turning(hand)).holds(drawing);
    let ticks = svg("path", "ticks").live("d", move || {
        let shown = matches!(hand.laying.get(), Some(Laying::Patches(_)));
        if shown { ticks(map.get().radius) } else { String::new() }
    });
    let all = svg("g", "").live("transform", move || map.get().matrix()).with(ticks).with(outlines);
    svg("svg", "hand-marks").is("viewBox", "0 0 1000 1000").is("aria-hidden", "true").with(all)
}

/// How the whole coat is drawn while its knob is held.
fn turning(hand: ByHand) -> String {
    hand.drag.with(|drag| {
        let Some((drag, Grip::Turn(was))) = drag.as_ref().map(|drag| (drag, drag.grip)) else {
            return String::new();
        };
        let middle = hand.bench.recipe.with_untracked(|recipe| {
            let coat = untrack(|| hand.coat()).and_then(|id| recipe.coat(id));
            coat.map_or((0.0, 0.0), |coat| (coat.layout.moved_right.0, coat.layout.moved_up.0))
        });
        format!("rotate({} {} {})", drag.turned() - was, middle.0, middle.1)
    })
}

fn outline(hand: ByHand, thing: &Thing) -> El {
    let which = thing.which;
    let held = move || {
        hand.drag.with(|drag| {
            let drag = drag.as_ref().filter(|drag| matches!(drag.grip, Grip::Move(one, _) if one == which));
            drag.map_or_else(String::new, |drag| {
                format!("translate({} {})", fixed(drag.by[0], 2), fixed(drag.by[1], 2))
            })
        })
    };
    svg("g", "")
        .with(svg("path", "halo").is("d", &thing.path))
        .with(svg("path", "mark").is("d", &thing.path))
        .class_when("focused", move || hand.focused.get() == Some(which))
        .live("transform", held)
}

/// Short lines around the rim, longer ones at the quarters.
fn ticks(radius: f32) -> String {
    let tick = |at: i32| {
        let (sin, cos) = sin_cos(f64::from(at * TICK).to_radians());
        let (from, to) = (1.03 * radius, if at % 6 == 0 { 1.06 } else { 1.045 } * radius);
        let (sin, cos) = (sin as f32, cos as f32);
        format!(
            "M{} {}L{} {}",
            fixed(from * cos, 2),
            fixed(from * sin, 2),
            fixed(to * cos, 2),
            fixed(to * sin, 2)
        )
    };
    (0..360 / TICK).map(tick).collect()
}
