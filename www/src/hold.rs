//! What the hand does with a rule: dragging a needle, stepping it by keys, typing its value.

use super::dom::El;
use super::rules::{Needle, Place, Rule, Unit, position, tidy, value_at};
use super::state::Bench;
use super::words;
use dappledome::base::scalar::Bounds;
use dappledome::base::typed;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent, PointerEvent};

/// What a rule's event handlers share.
#[derive(Clone, Copy)]
pub struct Hold {
    /// The page.
    pub bench: Bench,
    /// The rule.
    pub rule: &'static Rule,
    /// Where in the recipe its numbers are.
    pub place: Place,
    /// The needle whose value is being typed, and what it begins with.
    pub typing: RwSignal<Option<(usize, String)>>,
    /// What is wrong with what was typed.
    pub refused: RwSignal<bool>,
    /// The drag under way.
    pub drag: RwSignal<Option<Drag>>,
    /// The needles on the page.
    needles: StoredValue<Vec<HtmlElement>, LocalStorage>,
}

/// A needle being dragged.
#[derive(Clone, Copy)]
pub struct Drag {
    needle: usize,
    pointer: i32,
    /// Where the needle would be on the scale if it had no steps, 0 to 1.
    at: f64,
    x: f64,
    /// Its value when the drag began.
    was: f64,
}

impl Hold {
    /// A hold on a rule for one place of the recipe.
    pub fn new(bench: Bench, rule: &'static Rule, place: Place, needles: &[El]) -> Self {
        Self {
            bench,
            rule,
            place,
            typing: RwSignal::new(None),
            refused: RwSignal::new(false),
            drag: RwSignal::new(None),
            needles: StoredValue::new_local(needles.iter().map(El::cast).collect()),
        }
    }

    fn needle(&self, at: usize) -> &'static Needle {
        &self.rule.needles[at]
    }

    /// A needle's value; none if the recipe has no such place any more.
    pub fn value(&self, at: usize) -> Option<f64> {
        self.bench.recipe.with(|recipe| (self.needle(at).get)(recipe, self.place))
    }

    fn now(&self, at: usize) -> f64 {
        let recipe = self.bench.recipe.read_untracked();
        (self.needle(at).get)(&recipe, self.place).unwrap_or(self.needle(at).limit.usual)
    }

    /// Sets a value. Of two needles the one that is met moves along.
    fn set(&self, at: usize, value: f64) {
        if value == self.now(at) {
            return;
        }
        let (rule, place) = (self.rule, self.place);
        self.bench.edit(words::lower(rule.label).as_str(), &|recipe| {
            (rule.needles[at].set)(recipe, place, value);
            if let [low, high] = rule.needles {
                let (Some(from), Some(to)) = ((low.get)(recipe, place), (high.get)(recipe, place)) else {
                    return;
                };
                if from > to {
                    let other = if at == 0 { high } else { low };
                    (other.set)(recipe, place, value.between(other.limit.least, other.limit.most));
                }
            }
        });
    }

    fn step(&self, at: usize, steps: f64, fine: bool) {
        let limit = self.needle(at).limit;
        let step = if fine { self.finest(at) } else { limit.step };
        self.set(at, tidy(&limit, step, self.now(at) + steps * step));
    }

    /// A tenth of a step, or the least that a value is written with.
    fn finest(&self, at: usize) -> f64 {
        let step = self.needle(at).limit.step;
        if self.rule.unit.whole() { step } else { (step / 10.0).max(0.01 / self.rule.unit.factor()) }
    }

    /// Sets every needle to its usual value.
    pub fn usual(&self) {
        for at in 0..self.rule.needles.len() {
            self.set(at, self.needle(at).limit.usual);
        }
    }

    /// Turns a value into a field that begins with these letters.
    pub fn type_into(&self, at: usize, begin: String) {
        self.refused.set(false);
        self.typing.set(Some((at, begin)));
    }

    /// Ends the typing and goes back to the needle.
    pub fn typed(&self, at: usize) {
        self.refused.set(false);
        self.typing.set(None);
        self.focus(at);
    }

    fn focus(&self, at: usize) {
        if let Some(needle) = self.needles.with_value(|needles| needles.get(at).cloned()) {
            // A needle that cannot be focused still moves.
            let _ = needle.focus();
        }
    }

    /// Takes what was typed, or says what can be.
    pub fn take(&self, at: usize, text: &str) {
        match self.understood(at, text) {
            Some(value) => {
                self.set(at, value);
                self.typed(at);
            }
            None => self.refused.set(true),
        }
    }

    /// The value that was typed, within its range. What was not changed stays what it was, however coarsely the shown
    /// unit writes it.
    fn understood(&self, at: usize, text: &str) -> Option<f64> {
        if text == self.shown(at) {
            return Some(self.now(at));
        }
        let unit = self.rule.unit;
        let never = unit == Unit::Rolls && text.trim().eq_ignore_ascii_case(words::NEVER);
        let limit = self.needle(at).limit;
        let value = if never {
            Some(limit.most)
        } else {
            typed::read(text, unit.kind(), self.bench.units.get_untracked())
        };
        let value = value? / if unit == Unit::Spoon { unit.factor() } else { 1.0 };
        Some(tidy(&limit, if unit.whole() { 1.0 } else { 1e-3 }, value))
    }

    /// Takes what was typed if it can be, without going back to the needle: the maker is elsewhere already.
    pub fn leave(&self, at: usize, text: &str) {
        if let Some(value) = self.understood(at, text) {
            self.set(at, value);
        }
        self.refused.set(false);
        self.typing.set(None);
    }

    /// A key on a needle.
    pub fn key(&self, at: usize, event: &KeyboardEvent) {
        let limit = self.needle(at).limit;
        let fine = event.shift_key();
        match event.key().as_str() {
            "ArrowRight" | "ArrowUp" => self.step(at, 1.0, fine),
            "ArrowLeft" | "ArrowDown" => self.step(at, -1.0, fine),
            "PageUp" => self.step(at, 10.0, false),
            "PageDown" => self.step(at, -10.0, false),
            "Home" => self.set(at, limit.least),
            "End" => self.set(at, limit.most),
            "Backspace" => self.set(at, limit.usual),
            "Escape" if self.drag.with_untracked(Option::is_some) => self.put_back(),
            "Enter" => self.type_into(at, self.shown(at)),
            key if key.len() == 1
                && key.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '.') =>
            {
                if event.ctrl_key() || event.meta_key() || event.alt_key() {
                    return;
                }
                self.type_into(at, key.into());
            }
            _ => return,
        }
        event.prevent_default();
        event.stop_propagation();
    }

    /// A value as it is typed.
    pub fn shown(&self, at: usize) -> String {
        self.rule.unit.say(self.now(at), &self.needle(at).limit, self.bench.units.get_untracked())
    }

    /// Takes hold of the nearest needle.
    pub fn grip(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let Some((scale, share)) = on_scale(event) else { return };
        let far = |at: &usize| (position(&self.rule.scale(), self.now(*at)) - share).abs();
        let needle = (0..self.rule.needles.len()).min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0);
        // Without capture the drag ends at the rule's edge; nothing else is lost.
        let _ = scale.set_pointer_capture(event.pointer_id());
        self.bench.history.drag(true);
        let was = self.now(needle);
        let at = position(&self.rule.scale(), was);
        let x = f64::from(event.client_x());
        self.drag.set(Some(Drag { needle, pointer: event.pointer_id(), at, x, was }));
        self.focus(needle);
        event.prevent_default();
    }

    /// Moves it as far as the pointer moved, and less the farther the pointer is from the rule.
    pub fn pull(&self, event: &PointerEvent) {
        let Some(mut drag) = self.drag.get_untracked().filter(|drag| drag.pointer == event.pointer_id())
        else {
            return;
        };
        let Some((scale, _)) = on_scale(event) else { return };
        let bounds = scale.get_bounding_client_rect();
        let y = f64::from(event.client_y());
        let away = (bounds.top() - y).max(y - bounds.bottom()).max(0.0);
        let slower = 1.0 + away / 40.0;
        let x = f64::from(event.client_x());
        drag.at = (drag.at + (x - drag.x) / bounds.width() / slower).between(0.0, 1.0);
        drag.x = x;
        self.drag.set(Some(drag));
        let limit = self.needle(drag.needle).limit;
        self.set(drag.needle, tidy(&limit, limit.step, value_at(&self.rule.scale(), drag.at)));
    }

    /// Ends a drag.
    pub fn let_go(&self) {
        if self.drag.with_untracked(Option::is_some) {
            self.drag.set(None);
            self.bench.history.drag(false);
        }
    }

    /// Ends a drag and undoes it.
    pub fn put_back(&self) {
        if let Some(drag) = self.drag.get_untracked() {
            self.set(drag.needle, drag.was);
        }
        self.let_go();
    }
}

/// The scale an event happened on, and where on it, 0 to 1.
fn on_scale(event: &PointerEvent) -> Option<(Element, f64)> {
    let scale = event.current_target()?.dyn_into::<Element>().ok()?;
    let bounds = scale.get_bounding_client_rect();
    let share = (f64::from(event.client_x()) - bounds.left()) / bounds.width().max(1.0);
    Some((scale, share))
}
