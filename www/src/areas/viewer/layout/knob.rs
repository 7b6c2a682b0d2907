//! The knob on the rim, which turns the whole coat.

use super::changes::turn_to;
use super::dragging::put_back;
use super::state::HandLayout;
use crate::areas::viewer::seen::percent;
use crate::words;
use dappledome::base::scalar::sin_cos;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// How far out the knob lies, in radii.
const OUT: f32 = 1.05;
/// Degrees by which an arrow turns the coat, and with Shift.
const TURN: (f64, f64) = (1.0, 15.0);

/// The knob.
#[component]
pub fn Knob() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let turned = move || layout.turn_of_coat().unwrap_or(0.0);
    let seen = layout.seen(move || place(turned(), layout.map().radius));
    view! {
        <button
            node_ref=layout.knob
            class="hand-knob"
            role="slider"
            aria-valuemin="0"
            aria-valuemax="359"
            aria-label=move || words::knob(&layout.powder())
            aria-valuenow=move || turned().to_string()
            aria-valuetext=move || words::turned(&layout.powder(), turned())
            style:left=move || percent(seen.get().0)
            style:top=move || percent(seen.get().1)
            on:keydown=move |event| {
                if key(layout, &event) {
                    event.prevent_default();
                    event.stop_propagation();
                }
            }
        ></button>
    }
}

/// Where the knob lies on a disc, mm: at the top of the coat.
fn place(turned: f64, radius: f32) -> [f32; 2] {
    let (sin, cos) = sin_cos((90.0 + turned).to_radians());
    [OUT * radius * cos as f32, OUT * radius * sin as f32]
}

/// A key on the knob; whether it means something.
fn key(layout: HandLayout, event: &KeyboardEvent) -> bool {
    let by = if event.shift_key() { TURN.1 } else { TURN.0 };
    match event.key().as_str() {
        // As the knob at the top goes: to the left is counterclockwise.
        "ArrowLeft" | "ArrowUp" => turn_by(layout, by),
        "ArrowRight" | "ArrowDown" => turn_by(layout, -by),
        "Escape" => return put_back(layout),
        _ => return false,
    }
    true
}

fn turn_by(layout: HandLayout, degrees: f64) {
    let coat = untrack(|| layout.coat());
    let Some(turned) = untrack(|| layout.turn_of_coat()) else { return };
    let name = words::turn_step(&untrack(|| layout.powder()));
    layout.piece.edit(&name, |recipe| turn_to(recipe, coat, turned + degrees));
}

#[cfg(test)]
mod tests {
    use super::place;

    #[test]
    fn the_knob_lies_at_the_top_and_goes_round_counterclockwise() {
        let [x, y] = place(0.0, 80.0);
        assert!(x.abs() < 1e-4 && (y - 84.0).abs() < 1e-4);
        let [x, y] = place(90.0, 80.0);
        assert!((x + 84.0).abs() < 1e-4 && y.abs() < 1e-4);
    }
}
