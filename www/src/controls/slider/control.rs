//! A field on the sheet: its label, its values and its scale.

use super::scale::Scale;
use super::state::SliderState;
use super::typing::TypedValue;
use crate::fields::types::{Field, Target};
use crate::words;
use leptos::prelude::*;

/// A slider for one field of the recipe.
#[component]
pub fn Slider(
    /// What it changes.
    field: &'static Field,
    /// Where in the recipe its numbers are.
    target: Target,
) -> impl IntoView {
    let slider = SliderState::new(field, target);
    let two = field.thumbs.len() > 1;
    let said = Memo::new(move |_| slider.said_under());
    view! {
        <div class="rule" class:tile=field.tile class:two=two>
            <div class="rule-head">
                <span class="label" on:dblclick=move |_| slider.set_usual()>
                    {field.label}
                </span>
                <span class="values">
                    {(0..field.thumbs.len()).map(|at| view! { <Value slider at /> }).collect_view()}
                </span>
            </div>
            <Scale slider />
            <Show when=move || said.read().is_some()>
                <p class="refused" role="alert">
                    {move || said.get()}
                </p>
            </Show>
        </div>
    }
}

/// A value beside the label: pressed, it can be typed.
#[component]
fn Value(
    /// Its slider.
    slider: SliderState,
    /// Which thumb's value.
    at: usize,
) -> impl IntoView {
    let typing = Memo::new(move |_| {
        slider.typing.with(|typing| typing.as_ref().is_some_and(|typing| typing.at == at))
    });
    view! {
        <span>
            {(at > 0).then(|| view! { <span class="dash">"–"</span> })}
            <Show when=move || typing.get() fallback=move || view! { <ShownValue slider at /> }>
                <TypedValue slider at />
            </Show>
        </span>
    }
}

/// A value as it is said.
#[component]
fn ShownValue(
    /// Its slider.
    slider: SliderState,
    /// Which thumb's value.
    at: usize,
) -> impl IntoView {
    let field = slider.field;
    let said = move || {
        let value = slider.value(at);
        value.map_or_else(String::new, |value| beside_label(field, at, value, slider))
    };
    view! {
        <button
            class="value"
            tabindex="-1"
            aria-label=move || words::type_value(field.thumb_name(at), &said())
            on:click=move |_| slider.type_over(at)
        >
            {said}
        </button>
    }
}

/// The first of two values goes without its unit: the second one has it.
fn beside_label(field: &Field, at: usize, value: f64, slider: SliderState) -> String {
    let units = slider.units();
    if at + 1 < field.thumbs.len() { field.number(value, units) } else { field.say(at, value, units) }
}
