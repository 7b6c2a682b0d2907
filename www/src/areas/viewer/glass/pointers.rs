//! Pointers on the glass: what lies there by hand hears them first, then the gestures.

use super::gestures::{Change, Finger, Gestures, is_near_ring};
use crate::areas::viewer::core_sample::Sampling;
use crate::areas::viewer::layout::{HandLayout, dragging};
use crate::areas::viewer::seen;
use crate::state::viewing::Viewing;
use dappledome::preview::Point;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent, WheelEvent};

/// How much nearer a line of the wheel brings the piece.
const NEARER: f64 = 0.12;
/// Most lines of one turn of the wheel.
const MOST_LINES: f64 = 2.0;

/// What pointers on the glass change.
#[derive(Clone, Copy)]
pub struct Pointers {
    layout: HandLayout,
    sampling: Sampling,
    viewing: Viewing,
    gestures: StoredValue<Gestures>,
}

impl Pointers {
    /// No pointer is down.
    pub fn new(layout: HandLayout, sampling: Sampling, viewing: Viewing) -> Self {
        Self { layout, sampling, viewing, gestures: StoredValue::new(Gestures::default()) }
    }

    /// A pointer comes down.
    pub fn down(&self, event: &PointerEvent) {
        self.put_down(event);
        if !self.gestures.with_value(Gestures::on_ring) {
            dragging::down(self.layout, event);
        }
    }

    /// A pointer moves.
    pub fn moved(&self, event: &PointerEvent) {
        if dragging::pulled(self.layout, event) {
            return;
        }
        let Some(glass) = glass(event) else { return };
        let width = f64::from(glass.client_width());
        let change = self.gestures.try_update_value(|gestures| gestures.moved(finger(event), width));
        match change.flatten() {
            Some(Change::Turn { turn, tilt }) => self.viewing.turn(turn, tilt),
            Some(Change::Pinch { turn, nearer }) => {
                self.viewing.camera.update(|camera| *camera = camera.turned(turn, 0.0).nearer(nearer));
            }
            Some(Change::MoveRing) => point(event).into_iter().for_each(|point| self.sampling.move_to(point)),
            None => {}
        }
    }

    /// A pointer is lifted: if it hardly moved, it has tapped.
    pub fn up(&self, event: &PointerEvent) {
        if dragging::lifted(self.layout, event) {
            return self.gone(event);
        }
        let tapped = self.gestures.try_update_value(|gestures| gestures.up(event.pointer_id()));
        if tapped == Some(true)
            && let Some(point) = point(event)
        {
            self.sampling.at(point);
        }
    }

    /// The browser takes a pointer away.
    pub fn cancel(&self, event: &PointerEvent) {
        dragging::let_go(self.layout);
        self.gone(event);
    }

    /// The wheel brings the piece nearer or farther.
    pub fn wheel(&self, event: &WheelEvent) {
        event.prevent_default();
        let per_line = if event.delta_mode() == WheelEvent::DOM_DELTA_PIXEL { 100.0 } else { 3.0 };
        let lines = (event.delta_y() / per_line).clamp(-MOST_LINES, MOST_LINES);
        self.viewing.nearer((1.0 - lines * NEARER) as f32);
    }

    fn put_down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let Some(glass) = glass(event) else { return };
        // Without capture the drag ends at the picture's edge; nothing else is lost.
        let _ = glass.set_pointer_capture(event.pointer_id());
        let on_ring = self.is_near_ring(&glass, finger(event));
        self.gestures.update_value(|gestures| gestures.down(finger(event), on_ring));
    }

    fn gone(&self, event: &PointerEvent) {
        self.gestures.update_value(|gestures| gestures.gone(event.pointer_id()));
    }

    fn is_near_ring(&self, glass: &Element, finger: Finger) -> bool {
        let bounds = glass.get_bounding_client_rect();
        self.sampling.ring_now().is_some_and(|(across, down)| {
            let x = bounds.left() + f64::from(across) * bounds.width();
            let y = bounds.top() + f64::from(down) * bounds.height();
            is_near_ring((x, y), finger)
        })
    }
}

fn glass(event: &PointerEvent) -> Option<Element> {
    event.current_target()?.dyn_into().ok()
}

fn finger(event: &PointerEvent) -> Finger {
    Finger { id: event.pointer_id(), x: event.client_x().into(), y: event.client_y().into() }
}

/// The point of the picture that a pointer is at.
fn point(event: &PointerEvent) -> Option<Point> {
    seen::pointer(event).map(|(across, down)| Point::Seen(across, down))
}
