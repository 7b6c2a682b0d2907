//! A number that stands as a word in a table or a line, and is typed over, stepped and taken back where it stands.

use super::slider::steps::{after_key, begins_number};
use super::typed::{kept_at, understood};
use crate::fields::types::Unit;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::recipe::limits::Limit;
use leptos::html;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// What a number is and who is told of it.
#[derive(Clone, Copy)]
pub struct NumberState {
    unit: Unit,
    limit: Limit,
    value: Signal<Option<f64>>,
    set: Callback<f64>,
    usual: Callback<()>,
    said: RwSignal<Option<String>>,
    /// What the field begins with while it is being typed, and whether that is the number itself.
    typing: RwSignal<Option<(String, bool)>>,
    button: NodeRef<html::Button>,
    preferences: Preferences,
}

/// The number: a button that turns into a field.
#[component]
pub fn Number(
    /// What it is, to those who do not see where it stands.
    #[prop(into)]
    name: Signal<String>,
    /// How it is said and typed.
    unit: Unit,
    /// How far it goes.
    limit: Limit,
    /// What it is; none if nobody has said.
    #[prop(into)]
    value: Signal<Option<f64>>,
    /// Whether it is the maker's own, which stands in weight.
    #[prop(into)]
    yours: Signal<bool>,
    /// Takes another one.
    #[prop(into)]
    set: Callback<f64>,
    /// Takes it back to what it usually is.
    #[prop(into)]
    usual: Callback<()>,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let state = NumberState {
        unit,
        limit,
        value,
        set,
        usual,
        said,
        typing: RwSignal::new(None),
        button: NodeRef::new(),
        preferences: expect_context(),
    };
    let typing = Memo::new(move |_| state.typing.with(Option::is_some));
    view! {
        <Show when=move || typing.get() fallback=move || view! { <Shown state name yours /> }>
            <Typing state name />
        </Show>
    }
}

impl NumberState {
    fn text(&self) -> String {
        let units = self.preferences.units.get();
        let value = self.value.get();
        value.map_or_else(|| words::NOT_WRITTEN.into(), |value| self.unit.say(value, &self.limit, units))
    }

    fn now(&self) -> f64 {
        self.value.get_untracked().unwrap_or(self.limit.usual)
    }

    /// A key on the button; whether it did anything.
    fn takes(&self, event: &KeyboardEvent) -> bool {
        let key = event.key();
        let commands = event.ctrl_key() || event.meta_key() || event.alt_key();
        match (after_key(&key, event.shift_key(), self.unit, &self.limit, self.now()), key.as_str()) {
            (_, "Backspace" | "Delete") => self.usual.run(()),
            (Some(value), _) => self.put(value),
            (_, first) if begins_number(first) && !commands => self.typing.set(Some((key, false))),
            _ => return false,
        }
        true
    }

    fn put(&self, value: f64) {
        self.said.set(None);
        if self.value.get_untracked() != Some(value) {
            self.set.run(value);
        }
    }

    /// Takes what was typed, or says what can be; whether it was understood.
    fn take(&self, text: &str) -> bool {
        let units = self.preferences.units.get_untracked();
        let shown = untrack(|| self.text());
        let Some(typed) = understood(self.unit, &self.limit, text, (self.now(), &shown), units) else {
            self.said.set(Some(words::typing_help(self.unit.kind(), units).into()));
            return false;
        };
        if text != shown {
            self.put(typed.value);
        }
        // Whoever takes it may have said something already.
        if let Some(end) = typed.beyond {
            self.said.set(Some(kept_at(self.unit, &self.limit, end, units)));
        }
        true
    }

    /// Turns the field into the button again, which gets the focus back if it was not taken elsewhere.
    fn end(&self, focus: bool) {
        self.typing.set(None);
        let button = self.button;
        if focus {
            request_animation_frame(move || {
                if let Some(button) = button.try_get_untracked().flatten() {
                    // A button that cannot be focused can still be clicked.
                    let _ = button.focus();
                }
            });
        }
    }
}

/// One number of something, as data.
pub struct NumberOf<T: 'static> {
    /// What it is.
    pub label: &'static str,
    /// How it is said and typed.
    pub unit: Unit,
    /// How far it goes.
    pub limit: Limit,
    /// Reads it; none where nobody has said, or there is no such thing.
    pub get: fn(&T) -> Option<f64>,
    /// Writes it; none lets it be as if nobody had said.
    pub set: fn(&mut T, Option<f64>),
}

/// A number in a list of such, behind its label.
#[component]
pub fn NumberRow(
    /// What it is.
    label: &'static str,
    /// How it is said and typed.
    unit: Unit,
    /// How far it goes.
    limit: Limit,
    /// What it is; none if nobody has said.
    value: Signal<Option<f64>>,
    /// Takes another one; none lets it be as if nobody had said.
    set: Callback<Option<f64>>,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    view! {
        <div>
            <dt>{label}</dt>
            <dd>
                <Number
                    name=Signal::stored(label.to_owned())
                    unit
                    limit
                    value
                    yours=Signal::stored(false)
                    set=Callback::new(move |value| set.run(Some(value)))
                    usual=Callback::new(move |()| set.run(None))
                    said
                />
            </dd>
        </div>
    }
}

/// The number as it is said.
#[component]
fn Shown(
    /// The number.
    state: NumberState,
    /// What it is.
    name: Signal<String>,
    /// Whether it is the maker's own.
    yours: Signal<bool>,
) -> impl IntoView {
    let press = move |event: KeyboardEvent| {
        if state.takes(&event) {
            event.prevent_default();
            event.stop_propagation();
        }
    };
    view! {
        <button
            class="own-number"
            class:yours=yours
            role="spinbutton"
            aria-label=name
            aria-description=words::NUMBER_KEYS
            aria-valuenow=move || state.value.get().map(|value| value.to_string())
            aria-valuetext=move || state.text()
            node_ref=state.button
            on:click=move |_| state.typing.set(Some((untrack(|| state.text()), true)))
            on:keydown=press
        >
            {move || state.text()}
        </button>
    }
}

/// The field that it turns into.
#[component]
fn Typing(
    /// The number.
    state: NumberState,
    /// What it is.
    name: Signal<String>,
) -> impl IntoView {
    let begin = state.typing.get_untracked();
    let input = NodeRef::<html::Input>::new();
    let wrong = RwSignal::new(false);
    input.on_load(move |input| {
        let Some((text, replaced)) = begin else { return };
        input.set_value(&text);
        // A field that cannot be focused can still be clicked.
        let _ = input.focus();
        if replaced {
            input.select();
        }
    });
    let text = move || input.get_untracked().map(|input| input.value()).unwrap_or_default();
    let press = move |event: KeyboardEvent| {
        // The rest of this key press would go to the button that comes instead, and press it.
        if event.key() == "Enter" {
            event.prevent_default();
        }
        match event.key().as_str() {
            "Enter" if state.take(&text()) => state.end(true),
            "Enter" => wrong.set(true),
            "Escape" => {
                state.said.set(None);
                state.end(true);
            }
            _ => return,
        }
        event.stop_propagation();
    };
    let leave = move |_| {
        // The row may be gone before its field is.
        if state.typing.try_get_untracked().flatten().is_some() {
            let text = text();
            if !text.trim().is_empty() {
                state.take(&text);
            }
            state.end(false);
        }
    };
    view! {
        <input
            class="typed own-typed"
            type="text"
            autocomplete="off"
            aria-label=name
            aria-invalid=move || wrong.get().to_string()
            node_ref=input
            on:keydown=press
            on:blur=leave
        />
    }
}
