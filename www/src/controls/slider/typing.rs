//! The field that a value turns into when it is typed.

use super::state::{Remark, SliderState};
use crate::controls::typed::{Typed, understood};
use leptos::html;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The field that a value turns into.
#[component]
pub fn TypedValue(
    /// Its slider.
    slider: SliderState,
    /// Which thumb's value.
    at: usize,
) -> impl IntoView {
    let typing = slider.typing.get_untracked();
    let input = NodeRef::<html::Input>::new();
    input.on_load(move |input| {
        let Some(typing) = typing else { return };
        input.set_value(&typing.begin);
        // A field that cannot be focused can still be clicked.
        let _ = input.focus();
        if typing.replaced {
            input.select();
        }
    });
    let text = move || input.get_untracked().map(|input| input.value()).unwrap_or_default();
    let blur = move |_| {
        // The slider may be gone before its field is.
        if slider.typing.try_get_untracked().flatten().is_some() {
            leave(slider, at, &text());
        }
    };
    view! {
        <input
            class="typed"
            type="text"
            autocomplete="off"
            aria-label=slider.field.thumb_name(at)
            aria-invalid=move || (slider.remark.get() == Some(Remark::NotUnderstood)).to_string()
            node_ref=input
            on:keydown=move |event| press(slider, at, &text(), &event)
            on:blur=blur
        />
    }
}

fn press(slider: SliderState, at: usize, text: &str, event: &KeyboardEvent) {
    match event.key().as_str() {
        "Enter" => take(slider, at, text),
        "Escape" => return_to_thumb(slider, at, None),
        _ => return,
    }
    event.stop_propagation();
}

/// Takes what was typed, or says what can be.
fn take(slider: SliderState, at: usize, text: &str) {
    match understood_by(slider, at, text) {
        Some(typed) => {
            slider.set(at, typed.value);
            return_to_thumb(slider, at, remark(typed, at));
        }
        None => slider.remark.set(Some(Remark::NotUnderstood)),
    }
}

/// Takes what was typed if it can be, without going back to the thumb: the maker is elsewhere already.
fn leave(slider: SliderState, at: usize, text: &str) {
    let typed = understood_by(slider, at, text);
    if let Some(typed) = typed {
        slider.set(at, typed.value);
    }
    let refused = || (!text.trim().is_empty()).then_some(Remark::NotUnderstood);
    slider.end_typing(typed.map_or_else(refused, |typed| remark(typed, at)));
}

fn return_to_thumb(slider: SliderState, at: usize, remark: Option<Remark>) {
    slider.end_typing(remark);
    slider.focus(at);
}

fn understood_by(slider: SliderState, at: usize, text: &str) -> Option<Typed> {
    let units = untrack(|| slider.units());
    let now = (slider.value_now(at), slider.text_now(at));
    understood(slider.field.unit, slider.limit(at), text, (now.0, &now.1), units)
}

/// What there is to say of it.
fn remark(typed: Typed, at: usize) -> Option<Remark> {
    typed.beyond.map(|end| Remark::Kept { at, end })
}
