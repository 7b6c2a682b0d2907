//! What the hand does with the thumbs of a slider: dragging, and keys.

use super::state::{Drag, SliderState};
use super::steps::{after_key, begins_number};
use crate::fields::scale::{position, tidy, value_at};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// So far from the scale the pointer moves a thumb half as fast, px.
const HALF_AS_FAST: f64 = 40.0;

/// What the hand does with the thumbs of a slider.
#[derive(Clone, Copy)]
pub struct SliderGesture(pub SliderState);

impl SliderGesture {
    /// Takes hold of the nearest thumb.
    pub fn grip(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let Some(scale) = scale_of(event) else { return };
        let (slider, range) = (self.0, self.0.field.scale());
        let shares = (0..slider.field.thumbs.len()).map(|at| position(&range, slider.value_now(at)));
        let thumb = nearest(shares, share_of(&scale, event));
        // Without capture the drag ends at the scale's edge; nothing else is lost.
        let _ = scale.set_pointer_capture(event.pointer_id());
        slider.note_drag(true);
        let was = slider.value_now(thumb);
        let (share, x) = (position(&range, was), f64::from(event.client_x()));
        slider.drag.set(Some(Drag { thumb, pointer: event.pointer_id(), share, x, was }));
        slider.focus(thumb);
        event.prevent_default();
    }

    /// Moves the thumb along with the pointer.
    pub fn pull(&self, event: &PointerEvent) {
        let slider = self.0;
        let drag = slider.drag.get_untracked().filter(|drag| drag.pointer == event.pointer_id());
        let (Some(drag), Some(scale)) = (drag, scale_of(event)) else { return };
        let bounds = scale.get_bounding_client_rect();
        let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
        let away = f64::max(bounds.top() - y, y - bounds.bottom());
        let share = pulled(drag.share, (x - drag.x) / bounds.width(), away);
        slider.drag.set(Some(Drag { share, x, ..drag }));
        let limit = slider.limit(drag.thumb);
        slider.set(drag.thumb, tidy(limit, limit.step, value_at(&slider.field.scale(), share)));
    }

    /// Ends a drag.
    pub fn let_go(&self) {
        if self.is_dragging() {
            self.0.drag.set(None);
            self.0.note_drag(false);
        }
    }

    /// Ends a drag and undoes it.
    pub fn put_back(&self) {
        if let Some(drag) = self.0.drag.get_untracked() {
            self.0.set(drag.thumb, drag.was);
        }
        self.let_go();
    }

    /// A key on a thumb.
    pub fn press(&self, at: usize, event: &KeyboardEvent) {
        if self.takes(at, event) {
            event.prevent_default();
            event.stop_propagation();
        }
    }

    /// Does what a key asks for, if it asks for anything here.
    fn takes(&self, at: usize, event: &KeyboardEvent) -> bool {
        let (slider, key) = (self.0, event.key());
        let fine = event.shift_key();
        let commands = event.ctrl_key() || event.meta_key() || event.alt_key();
        let value = after_key(&key, fine, slider.field.unit, slider.limit(at), slider.value_now(at));
        match (value, key.as_str()) {
            (Some(value), _) => slider.set(at, value),
            (_, "Escape") if self.is_dragging() => self.put_back(),
            (_, "Enter") => slider.type_over(at),
            (_, first) if begins_number(first) && !commands => slider.type_from(at, key),
            _ => return false,
        }
        true
    }

    fn is_dragging(&self) -> bool {
        self.0.drag.with_untracked(Option::is_some)
    }
}

/// Which of some places on the scale is nearest to one.
fn nearest(places: impl Iterator<Item = f64>, share: f64) -> usize {
    let far = places.map(|place| (place - share).abs()).enumerate();
    far.min_by(|(_, a), (_, b)| a.total_cmp(b)).map_or(0, |(at, _)| at)
}

/// Where a thumb is after the pointer went `by` of the scale's width, `away` px above or below it: the farther, the slower.
fn pulled(share: f64, by: f64, away: f64) -> f64 {
    let slower = 1.0 + f64::max(away, 0.0) / HALF_AS_FAST;
    (share + by / slower).clamp(0.0, 1.0)
}

/// The scale that an event happened on.
fn scale_of(event: &PointerEvent) -> Option<Element> {
    event.current_target()?.dyn_into().ok()
}

/// Where on its scale an event happened, 0 to 1.
fn share_of(scale: &Element, event: &PointerEvent) -> f64 {
    let bounds = scale.get_bounding_client_rect();
    (f64::from(event.client_x()) - bounds.left()) / f64::max(bounds.width(), 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_thumb_is_taken() {
        let taken = |share| nearest([0.2, 0.6].into_iter(), share);
        assert_eq!([0.0, 0.39, 0.41, 1.0].map(taken), [0, 0, 1, 1]);
        assert_eq!(nearest([0.5, 0.5].into_iter(), 0.9), 0, "the first of two that are met");
    }

    #[test]
    fn a_thumb_follows_slower_the_farther_away_the_pointer_is() {
        assert_eq!(pulled(0.25, 0.5, 0.0), 0.75);
        assert_eq!(pulled(0.25, 0.5, -12.0), 0.75, "on the scale");
        assert_eq!(pulled(0.25, 0.5, HALF_AS_FAST), 0.5);
        assert_eq!(pulled(0.25, 0.5, 3.0 * HALF_AS_FAST), 0.375);
        assert_eq!([pulled(0.9, 1.0, 0.0), pulled(0.1, -1.0, 0.0)], [1.0, 0.0]);
    }
}
