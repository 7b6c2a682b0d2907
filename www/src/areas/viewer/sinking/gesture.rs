//! What the hand does with the needle: dragging it on the rule or on the joint, and keys.

use crate::state::sinking::Sinking;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// Minutes that an arrow goes, an arrow with Shift, and a page.
const STEPS: (f64, f64, f64) = (1.0, 0.1, 10.0);

/// What the hand does with the needle.
#[derive(Clone, Copy)]
pub struct Gesture(pub Sinking);

impl Gesture {
    /// Takes hold of the needle, wherever on its line the pointer is.
    pub fn grip(&self, event: &PointerEvent) {
        let line = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        let Some(line) = line.filter(|_| event.button() == 0) else { return };
        // Without capture the drag ends at the line's edge; nothing else is lost.
        let _ = line.set_pointer_capture(event.pointer_id());
        self.0.dragged.set(true);
        self.go_where(&line, event);
        event.prevent_default();
    }

    /// Moves the needle along.
    pub fn pull(&self, event: &PointerEvent) {
        let line = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(line) = line.filter(|_| self.0.dragged.get_untracked()) {
            self.go_where(&line, event);
        }
    }

    /// Ends a drag.
    pub fn let_go(&self) {
        if self.0.dragged.get_untracked() {
            self.0.dragged.set(false);
        }
    }

    fn go_where(&self, line: &Element, event: &PointerEvent) {
        let Some(course) = self.0.course.get_untracked() else { return };
        let bounds = line.get_bounding_client_rect();
        // The joint stands upright where there is room, and lies on a phone.
        let share = if bounds.width() > bounds.height() {
            (f64::from(event.client_x()) - bounds.left()) / bounds.width()
        } else {
            (f64::from(event.client_y()) - bounds.top()) / bounds.height().max(1.0)
        };
        self.0.go_to(course.at_share(share).round());
    }

    /// A key on the needle.
    pub fn press(&self, event: &KeyboardEvent) {
        let Some(course) = self.0.course.get_untracked() else { return };
        let now = untrack(|| self.0.minutes());
        let full = course.full_at().unwrap_or(course.span().1);
        let to = match event.key().as_str() {
            "Enter" | " " => return self.enter(event),
            "Home" => Some(course.span().0),
            "End" => Some(full),
            key => by_key(key, event.shift_key()).map(|by| now + by),
        };
        if let Some(to) = to {
            self.0.go_to(to);
            event.prevent_default();
            event.stop_propagation();
        }
    }

    fn enter(self, event: &KeyboardEvent) {
        self.0.watch();
        event.prevent_default();
    }
}

/// Minutes that a key moves the needle by.
fn by_key(key: &str, fine: bool) -> Option<f64> {
    let step = if fine { STEPS.1 } else { STEPS.0 };
    match key {
        "ArrowRight" | "ArrowUp" => Some(step),
        "ArrowLeft" | "ArrowDown" => Some(-step),
        "PageUp" => Some(STEPS.2),
        "PageDown" => Some(-STEPS.2),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::by_key;

    #[test]
    fn arrows_go_a_minute_or_a_tenth() {
        assert_eq!(["ArrowRight", "ArrowLeft"].map(|key| by_key(key, false)), [Some(1.0), Some(-1.0)]);
        assert_eq!(["ArrowUp", "ArrowDown"].map(|key| by_key(key, true)), [Some(0.1), Some(-0.1)]);
        assert_eq!(["PageUp", "a", "Escape"].map(|key| by_key(key, false)), [Some(10.0), None, None]);
    }
}
