//! One sister over the other, with an edge that is moved across them.

use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;

/// How far a key moves the edge: of the discs' width, and with Shift.
const STEPS: (f64, f64) = (0.05, 0.01);

/// The left one up to the edge, the right one from there.
#[component]
pub fn Wipe(
    /// The left one.
    one: Seed,
    /// The right one.
    other: Seed,
) -> impl IntoView {
    let (tray, results) = (expect_context::<Tray>(), expect_context::<Results>());
    let percent = move || tray.wipe.get() * 100.0;
    let discs = NodeRef::<html::Div>::new();
    let name = move |seed| move || words::seed_and_grams(seed, results.features_of(seed).as_ref());
    view! {
        <div class="lifted-disc">
            <div
                class="wipe"
                node_ref=discs
                on:pointerdown=move |event| {
                    capture(discs, &event);
                    pull(tray, discs, &event);
                }
                on:pointermove=move |event| pull(tray, discs, &event)
            >
                <span class="round">
                    <Picture of=PictureSlot::Lifted(one) />
                </span>
                <span
                    class="round over"
                    style=("clip-path", move || format!("inset(0 0 0 {}%)", fixed(percent(), 2)))
                >
                    <Picture of=PictureSlot::Lifted(other) />
                </span>
                <WipeEdge one other />
            </div>
            <span class="sister-name wipe-names">
                <span>{name(one)}</span>
                <span>{name(other)}</span>
            </span>
        </div>
    }
}

#[component]
fn WipeEdge(
    /// The left one.
    one: Seed,
    /// The right one.
    other: Seed,
) -> impl IntoView {
    let tray = expect_context::<Tray>();
    let percent = move || tray.wipe.get() * 100.0;
    let pressed = move |event: KeyboardEvent| {
        if let Some(wipe) = moved(&event.key(), event.shift_key(), tray.wipe.get_untracked()) {
            tray.wipe.set(wipe);
            event.prevent_default();
        }
    };
    view! {
        <div
            class="wipe-edge"
            role="slider"
            tabindex="0"
            aria-label=words::WIPE_EDGE
            aria-valuemin="0"
            aria-valuemax="100"
            aria-valuenow=move || fixed(percent(), 0)
            aria-valuetext=move || words::wiped(one, other, percent())
            style:left=move || format!("{}%", fixed(percent(), 2))
            on:keydown=pressed
        ></div>
    }
}

/// Where a key moves the edge to; nothing if it means nothing.
fn moved(key: &str, fine: bool, wipe: f64) -> Option<f64> {
    let step = if fine { STEPS.1 } else { STEPS.0 };
    let to = match key {
        "ArrowLeft" | "ArrowDown" => wipe - step,
        "ArrowRight" | "ArrowUp" => wipe + step,
        "Home" => 0.0,
        "End" => 1.0,
        _ => return None,
    };
    Some(to.clamp(0.0, 1.0))
}

fn capture(discs: NodeRef<html::Div>, event: &PointerEvent) {
    if let Some(discs) = discs.get_untracked().filter(|_| is_down(event)) {
        // Without capture the drag ends at the disc's edge; nothing else is lost.
        let _ = discs.set_pointer_capture(event.pointer_id());
    }
}

/// Moves the edge to the pointer while it is down.
fn pull(tray: Tray, discs: NodeRef<html::Div>, event: &PointerEvent) {
    if let Some(discs) = discs.get_untracked().filter(|_| is_down(event)) {
        let bounds = discs.get_bounding_client_rect();
        tray.wipe.set(share_at(event.client_x().into(), bounds.left(), bounds.width()));
    }
}

fn is_down(event: &PointerEvent) -> bool {
    event.buttons() & 1 != 0
}

/// What share of discs that begin at `left` and are so wide lies left of `x`.
fn share_at(x: f64, left: f64, width: f64) -> f64 {
    ((x - left) / width.max(1.0)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_move_the_edge_and_stop_at_the_rims() {
        let near = |at: Option<f64>, to: f64| at.is_some_and(|at| (at - to).abs() < 1e-12);
        assert!(near(moved("ArrowRight", false, 0.5), 0.55) && near(moved("ArrowUp", true, 0.5), 0.51));
        assert!(near(moved("ArrowLeft", false, 0.5), 0.45) && near(moved("ArrowDown", true, 0.5), 0.49));
        assert_eq!((moved("ArrowLeft", false, 0.02), moved("ArrowRight", true, 1.0)), (Some(0.0), Some(1.0)));
        assert_eq!((moved("Home", false, 0.3), moved("End", false, 0.3)), (Some(0.0), Some(1.0)));
        assert_eq!(moved("Enter", false, 0.3), None);
    }

    #[test]
    fn the_edge_goes_to_the_pointer_but_not_off_the_discs() {
        assert_eq!([share_at(150.0, 100.0, 200.0), share_at(90.0, 100.0, 200.0)], [0.25, 0.0]);
        assert_eq!([share_at(400.0, 100.0, 200.0), share_at(100.0, 100.0, 0.0)], [1.0, 0.0]);
    }
}
