//! What the parts of a slider share.

use crate::fields::types::{Field, Target};
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::recipe::limits::Limit;
use leptos::html;
use leptos::prelude::*;

/// Most thumbs on one scale.
const MOST_THUMBS: usize = 2;

/// A value that has turned into a field to type in.
#[derive(Clone, Debug, PartialEq)]
pub struct Typing {
    /// Which thumb's value.
    pub at: usize,
    /// What the field begins with.
    pub begin: String,
}

/// A thumb being dragged.
#[derive(Clone, Copy, Debug)]
pub struct Drag {
    /// Which thumb.
    pub thumb: usize,
    /// The pointer that drags it.
    pub pointer: i32,
    /// Where the thumb would be on the scale if it had no steps, 0 to 1.
    pub share: f64,
    /// Where the pointer was last, px.
    pub x: f64,
    /// The thumb's value when the drag began.
    pub was: f64,
}

/// What the parts of a slider share.
#[derive(Clone, Copy)]
pub struct SliderState {
    /// What it changes.
    pub field: &'static Field,
    /// Where in the recipe its numbers are.
    pub target: Target,
    /// The value that is being typed.
    pub typing: RwSignal<Option<Typing>>,
    /// Whether what was typed was not understood.
    pub refused: RwSignal<bool>,
    /// The drag under way.
    pub drag: RwSignal<Option<Drag>>,
    /// The thumbs on the page.
    pub thumbs: [NodeRef<html::Div>; MOST_THUMBS],
    piece: Workpiece,
    preferences: Preferences,
}

impl SliderState {
    /// At rest. Takes the contexts of the page.
    pub fn new(field: &'static Field, target: Target) -> Self {
        let piece = expect_context::<Workpiece>();
        let drag = RwSignal::new(None);
        on_cleanup(move || {
            if drag.with_untracked(Option::is_some) {
                piece.drag(false);
            }
        });
        Self {
            field,
            target,
            typing: RwSignal::new(None),
            refused: RwSignal::new(false),
            drag,
            thumbs: std::array::from_fn(|_| NodeRef::new()),
            piece,
            preferences: expect_context(),
        }
    }

    /// How far a thumb goes.
    pub fn limit(&self, at: usize) -> &'static Limit {
        &self.field.thumbs[at].limit
    }

    /// The units of what is shown.
    pub fn units(&self) -> Units {
        self.preferences.units.get()
    }

    /// A thumb's value; none if the recipe has no such target any more.
    pub fn value(&self, at: usize) -> Option<f64> {
        (self.field.thumbs[at].get)(&self.piece.recipe.read(), self.target)
    }

    /// The same, to act on: the usual value if the recipe has no such target any more.
    pub fn value_now(&self, at: usize) -> f64 {
        untrack(|| self.value(at)).unwrap_or(self.limit(at).usual)
    }

    /// A thumb's value as it is typed.
    pub fn text_now(&self, at: usize) -> String {
        self.field.unit.say(self.value_now(at), self.limit(at), untrack(|| self.units()))
    }

    /// Sets a thumb's value.
    pub fn set(&self, at: usize, value: f64) {
        if value != self.value_now(at) {
            let Self { field, target, .. } = *self;
            self.piece.edit(&words::lower(field.label), |recipe| field.set(recipe, target, at, value));
        }
    }

    /// Sets every thumb to its usual value.
    pub fn set_usual(&self) {
        for (at, thumb) in self.field.thumbs.iter().enumerate() {
            self.set(at, thumb.limit.usual);
        }
    }

    /// Begins or ends a drag, which is one step back.
    pub fn note_drag(&self, begins: bool) {
        self.piece.drag(begins);
    }

    /// Gives a thumb the focus.
    pub fn focus(&self, at: usize) {
        if let Some(thumb) = self.thumbs[at].get_untracked() {
            // A thumb that cannot be focused still moves.
            let _ = thumb.focus();
        }
    }

    /// Turns a value into a field that begins with these letters.
    pub fn begin_typing(&self, at: usize, begin: String) {
        self.refused.set(false);
        self.typing.set(Some(Typing { at, begin }));
    }

    /// Turns the field into a value again.
    pub fn end_typing(&self) {
        self.refused.set(false);
        self.typing.set(None);
    }
}
