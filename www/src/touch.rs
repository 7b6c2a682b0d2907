//! Fingers and pointers on the glass: a tap takes a core sample, one drags the piece round (or the ring of the sample), two
//! turn it and bring it nearer.

use super::core_sample;
use super::state::{Bench, Slip};
use dappledome::base::scalar::atan2;
use dappledome::preview::Point;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// Degrees of turn for a drag across the whole picture.
const TURN_ACROSS: f64 = 240.0;
/// A pointer that moved less than this, px, has tapped.
const TAP: f64 = 5.0;
/// How near the ring a drag must begin to move it, px.
const NEAR_RING: f64 = 24.0;

/// A pointer that is down: its number and where it is, px.
#[derive(Clone, Copy)]
struct Finger {
    id: i32,
    x: f64,
    y: f64,
}

/// What the hand on the glass is about.
#[derive(Clone, Copy, Default, PartialEq)]
enum Doing {
    /// Nothing yet: it may be a tap.
    #[default]
    Resting,
    /// Turning the piece.
    Turning,
    /// Moving the ring of the core sample.
    Sampling,
}

/// The pointers that are down.
#[derive(Default)]
pub struct Touch {
    fingers: Vec<Finger>,
    doing: Doing,
    /// Where the first one came down.
    start: (f64, f64),
}

/// A pointer comes down.
pub fn down(bench: Bench, touch: StoredValue<Touch>, event: &PointerEvent) {
    if event.button() != 0 {
        return;
    }
    let Some(place) = place(event) else { return };
    // Without capture the drag ends at the picture's edge; nothing else is lost.
    let _ = place.set_pointer_capture(event.pointer_id());
    let finger = finger(event);
    let on_ring = near_ring(bench, &place, &finger);
    touch.update_value(|touch| {
        touch.fingers.push(finger);
        if touch.fingers.len() == 1 {
            touch.start = (finger.x, finger.y);
            touch.doing = if on_ring { Doing::Sampling } else { Doing::Resting };
        } else {
            touch.doing = Doing::Turning;
        }
    });
}

/// Whether the pointer that is down has hold of the ring of the core sample.
pub fn on_ring(touch: StoredValue<Touch>) -> bool {
    touch.with_value(|touch| touch.doing == Doing::Sampling)
}

/// A pointer moves.
pub fn moved(bench: Bench, touch: StoredValue<Touch>, event: &PointerEvent) {
    let Some(place) = place(event) else { return };
    let to = finger(event);
    let mut change = None;
    touch.update_value(|touch| {
        let Some(at) = touch.fingers.iter().position(|finger| finger.id == to.id) else { return };
        let from = std::mem::replace(&mut touch.fingers[at], to);
        if touch.doing == Doing::Resting && far(touch.start, to) > TAP {
            touch.doing = Doing::Turning;
        }
        let other = touch.fingers.iter().find(|finger| finger.id != to.id).copied();
        change = Some((touch.doing, from, other));
    });
    match change {
        Some((Doing::Turning, from, None)) => turn(bench, &place, from, to),
        Some((Doing::Turning, from, Some(other))) => pinch(bench, other, from, to),
        Some((Doing::Sampling, ..)) => bench.sampling.set(point(&place, to)),
        _ => {}
    }
}

/// A pointer is lifted: if it hardly moved, it has tapped.
pub fn up(bench: Bench, touch: StoredValue<Touch>, event: &PointerEvent) {
    let tapped = touch.with_value(|touch| touch.fingers.len() == 1 && touch.doing == Doing::Resting);
    gone(touch, event);
    if let (true, Some(place)) = (tapped, place(event)) {
        core_sample::at(bench, point(&place, finger(event)));
    }
}

/// A pointer is no more.
pub fn gone(touch: StoredValue<Touch>, event: &PointerEvent) {
    touch.update_value(|touch| touch.fingers.retain(|finger| finger.id != event.pointer_id()));
}

fn finger(event: &PointerEvent) -> Finger {
    Finger { id: event.pointer_id(), x: event.client_x().into(), y: event.client_y().into() }
}

fn place(event: &PointerEvent) -> Option<Element> {
    event.current_target()?.dyn_into().ok()
}

/// Where in the picture a pointer is, as shares of its side.
fn point(place: &Element, finger: Finger) -> Point {
    let bounds = place.get_bounding_client_rect();
    let share = |px: f64, from: f64, size: f64| ((px - from) / size.max(1.0)) as f32;
    Point::Seen(
        share(finger.x, bounds.left(), bounds.width()),
        share(finger.y, bounds.top(), bounds.height()),
    )
}

fn near_ring(bench: Bench, place: &Element, finger: &Finger) -> bool {
    let bounds = place.get_bounding_client_rect();
    bench.slip.with_untracked(|slip| *slip == Slip::Sample)
        && bench.sampled.with_untracked(|sampled| {
            sampled.as_ref().is_some_and(|sampled| {
                let x = bounds.left() + f64::from(sampled.seen.0) * bounds.width();
                let y = bounds.top() + f64::from(sampled.seen.1) * bounds.height();
                far((x, y), *finger) < NEAR_RING
            })
        })
}

fn far((x, y): (f64, f64), finger: Finger) -> f64 {
    let (dx, dy) = (finger.x - x, finger.y - y);
    (dx * dx + dy * dy).sqrt()
}

/// One finger drags the piece round.
fn turn(bench: Bench, place: &Element, from: Finger, to: Finger) {
    let degrees = TURN_ACROSS / f64::from(place.client_width().max(1));
    let (turn, tilt) = ((to.x - from.x) * degrees, (to.y - from.y) * degrees * 0.5);
    if turn != 0.0 || tilt != 0.0 {
        bench.eye.update(|eye| *eye = eye.turned(turn as f32, tilt as f32));
    }
}

/// Two fingers turn the piece about its axis and bring it nearer.
fn pinch(bench: Bench, other: Finger, from: Finger, to: Finger) {
    let around = |finger: Finger| atan2(other.y - finger.y, finger.x - other.x).to_degrees();
    let apart = |finger: Finger| far((other.x, other.y), finger).max(1.0);
    let turn = (around(to) - around(from) + 540.0).rem_euclid(360.0) - 180.0;
    let nearer = apart(to) / apart(from);
    bench.eye.update(|eye| *eye = eye.turned(turn as f32, 0.0).nearer(nearer as f32));
}
