//! What the hand does with the needle: dragging it on the rule or on the joint, and keys.

use crate::model::sinking::touching;
use crate::state::announcer::Announcer;
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, PointerEvent};

/// Minutes that an arrow goes, an arrow with Shift, and a page.
const STEPS: (f64, f64, f64) = (1.0, 0.1, 10.0);

/// What the hand does with the needle.
#[derive(Clone, Copy)]
pub struct Gesture {
    sinking: Sinking,
    preferences: Preferences,
    announcer: Announcer,
}

impl Gesture {
    /// At rest. Takes the contexts of the page.
    pub fn new() -> Self {
        Self { sinking: expect_context(), preferences: expect_context(), announcer: expect_context() }
    }

    /// The moment looked at, in words, followed.
    pub fn said(&self) -> Option<String> {
        let (moment, units) = (self.sinking.moment.get()?, self.preferences.units.get());
        let when = words::moment(self.sinking.minutes(), self.sinking.heat(), units);
        Some(words::sunk_said(&when, moment.depth(), touching(&moment), units))
    }

    /// Takes hold of the needle, wherever on its line the pointer is.
    pub fn grip(&self, event: &PointerEvent) {
        let line = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        let Some(line) = line.filter(|_| event.button() == 0) else { return };
        // Without capture the drag ends at the line's edge; nothing else is lost.
        let _ = line.set_pointer_capture(event.pointer_id());
        self.sinking.dragged.set(true);
        self.go_where(&line, event);
        event.prevent_default();
    }

    /// Moves the needle along.
    pub fn pull(&self, event: &PointerEvent) {
        let line = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(line) = line.filter(|_| self.sinking.dragged.get_untracked()) {
            self.go_where(&line, event);
        }
    }

    /// Ends a drag, and says where: keys have the needle itself to say so.
    pub fn let_go(&self) {
        if self.sinking.dragged.get_untracked() {
            self.sinking.dragged.set(false);
            self.announcer.say(untrack(|| self.said()).unwrap_or_default());
        }
    }

    fn go_where(&self, line: &Element, event: &PointerEvent) {
        let Some(course) = untrack(|| self.sinking.course()) else { return };
        let bounds = line.get_bounding_client_rect();
        // The joint stands upright where there is room, and lies on a phone.
        let share = if bounds.width() > bounds.height() {
            (f64::from(event.client_x()) - bounds.left()) / bounds.width()
        } else {
            (f64::from(event.client_y()) - bounds.top()) / bounds.height().max(1.0)
        };
        self.sinking.go_to(course.at_share(share).round());
    }

    /// A key on the needle.
    pub fn press(&self, event: &KeyboardEvent) {
        let Some(course) = untrack(|| self.sinking.course()) else { return };
        let now = untrack(|| self.sinking.minutes());
        let full = course.full_at().unwrap_or(course.span().1);
        let to = match event.key().as_str() {
            "Enter" | " " => return self.enter(event),
            "Home" => Some(course.span().0),
            "End" => Some(full),
            key => by_key(key, event.shift_key()).map(|by| now + by),
        };
        if let Some(to) = to {
            self.sinking.go_to(to);
            event.prevent_default();
            event.stop_propagation();
        }
    }

    fn enter(self, event: &KeyboardEvent) {
        self.sinking.watch();
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
