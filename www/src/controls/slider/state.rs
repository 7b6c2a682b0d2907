//! What the parts of a slider share.

use crate::controls::typed::{End, kept_at};
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
    /// Whether what it begins with is the value itself, which the first letter typed replaces.
    pub replaced: bool,
}

/// What is said under a slider of a value that was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remark {
    /// It was not understood.
    NotUnderstood,
    /// It lay beyond an end of the range, and the thumb was kept at that end.
    Kept {
        /// Which thumb.
        at: usize,
        /// Which end.
        end: End,
    },
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
    /// What there is to say of what was typed.
    pub remark: RwSignal<Option<Remark>>,
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
            remark: RwSignal::new(None),
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
            self.remark.set(None);
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

    /// Turns a value into a field to type another one over it.
    pub fn type_over(&self, at: usize) {
        self.begin_typing(Typing { at, begin: self.text_now(at), replaced: true });
    }

    /// Turns a value into a field that begins with this letter.
    pub fn type_from(&self, at: usize, letter: String) {
        self.begin_typing(Typing { at, begin: letter, replaced: false });
    }

    fn begin_typing(&self, typing: Typing) {
        self.remark.set(None);
        self.typing.set(Some(typing));
    }

    /// Turns the field into a value again, and says what there is to say.
    pub fn end_typing(&self, remark: Option<Remark>) {
        self.remark.set(remark);
        self.typing.set(None);
    }

    /// What stands under the slider. That a thumb was kept at an end holds only while it is there.
    pub fn said_under(&self) -> Option<String> {
        let (field, units) = (self.field, self.units());
        match self.remark.get()? {
            Remark::NotUnderstood => Some(words::typing_help(field.unit.kind(), units).into()),
            Remark::Kept { at, end } => {
                let limit = self.limit(at);
                let value = if end == End::Least { limit.least } else { limit.most };
                (self.value(at) == Some(value)).then(|| kept_at(field.unit, limit, end, units))
            }
        }
    }
}
