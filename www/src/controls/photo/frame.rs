//! One frame on a photo: a button that is dragged, or moved by keys.

use super::grip::{Hold, after_key};
use crate::model::photo::Mark;
use crate::state::announcer::Announcer;
use crate::words;
use dappledome::photo::frame::{Frame, Shape, Size};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// The id of what says which keys there are.
pub const KEYS: &str = "photo-keys";

/// A mark, as it lies on a photo of this size.
#[component]
pub fn PhotoFrame(
    /// The mark.
    mark: Signal<Mark>,
    /// Width and height of the photo, pixels.
    photo: Size,
    /// Takes the frame elsewhere.
    put: Callback<Frame>,
) -> impl IntoView {
    let announcer = expect_context::<Announcer>();
    let held = StoredValue::new(None::<Hold>);
    let frame = move || mark.with_untracked(|mark| mark.frame);
    let take = move |event: PointerEvent| {
        if let Some(hold) = hold_of(&event, frame(), photo) {
            held.set_value(Some(hold));
        }
    };
    let pull = move |event: PointerEvent| {
        if let Some(hold) = held.get_value() {
            put.run(hold.to(place(&event), photo));
        }
    };
    let press = move |event: KeyboardEvent| {
        let held = (event.shift_key(), event.ctrl_key() || event.meta_key());
        let Some(moved) = after_key(&event.key(), held, frame(), photo).filter(|_| !event.alt_key()) else {
            return;
        };
        event.prevent_default();
        event.stop_propagation();
        put.run(moved);
        announcer.say(words::frame_said(&untrack(|| mark.get())));
    };
    let share = move |of: fn(Frame) -> i32, whole: i32| {
        move || (f64::from(mark.with(|mark| of(mark.frame))) / f64::from(whole.max(1))).to_string()
    };
    view! {
        <button
            class="photo-frame"
            class:round=move || mark.with(|mark| mark.frame.shape == Shape::Round)
            aria-label=move || words::frame_said(&mark.get())
            aria-describedby=KEYS
            style=("--left", share(|frame| frame.left, photo.0))
            style=("--top", share(|frame| frame.top, photo.1))
            style=("--wide", share(|frame| frame.wide, photo.0))
            style=("--high", share(|frame| frame.high, photo.1))
            on:pointerdown=take
            on:pointermove=pull
            on:pointerup=move |_| held.set_value(None)
            on:pointercancel=move |_| held.set_value(None)
            on:keydown=press
        >
            <span class="photo-mark">{move || mark.with(|mark| mark.name.clone())}</span>
        </button>
    }
}

/// What a pointer takes hold of that comes down on a frame.
fn hold_of(event: &PointerEvent, frame: Frame, photo: Size) -> Option<Hold> {
    let element: Element = event.current_target()?.dyn_into().ok()?;
    let shown = element.parent_element()?.get_bounding_client_rect();
    let bounds = element.get_bounding_client_rect();
    // What leaves the frame is still heard; without that it is dragged no farther than its edge.
    let _ = element.set_pointer_capture(event.pointer_id());
    let (x, y) = place(event);
    let share = |at: f64, from: f64, side: f64| (at - from) / side.max(1.0);
    let share = (share(x, bounds.left(), bounds.width()), share(y, bounds.top(), bounds.height()));
    let scale = f64::from(photo.0) / shown.width().max(1.0);
    Some(Hold::new(frame, ((x, y), share), scale, event.pointer_type() == "touch"))
}

/// Where a pointer is on the screen, px.
fn place(event: &PointerEvent) -> (f64, f64) {
    (event.client_x().into(), event.client_y().into())
}
