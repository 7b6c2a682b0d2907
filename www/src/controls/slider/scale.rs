//! The scale of a slider: its line, how far it is reached, its graduations and its thumbs.

use super::gesture::SliderGesture;
use super::state::SliderState;
use super::tile::TestTile;
use crate::fields::marks::{Mark, marks};
use crate::fields::scale::position;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// The scale of a slider.
#[component]
pub fn Scale(
    /// Its slider.
    slider: SliderState,
) -> impl IntoView {
    let gesture = SliderGesture(slider);
    let field = slider.field;
    let graduations = move || marks(field, slider.units()).iter().map(graduation).collect_view();
    view! {
        <div
            class="scale"
            class:dragged=move || slider.drag.read().is_some()
            on:pointerdown=move |event| gesture.grip(&event)
            on:pointermove=move |event| gesture.pull(&event)
            on:pointerup=move |_| gesture.let_go()
            on:pointercancel=move |_| gesture.put_back()
        >
            {field.tile.then(|| view! { <TestTile slider /> })}
            <div class="line"></div>
            <Reach slider />
            <div class="marks" aria-hidden="true">
                {graduations}
            </div>
            {(0..field.thumbs.len()).map(|at| view! { <ThumbHandle slider at /> }).collect_view()}
        </div>
    }
}

/// The part of the line up to the thumb, or between two of them.
#[component]
fn Reach(
    /// Its slider.
    slider: SliderState,
) -> impl IntoView {
    let two = slider.field.thumbs.len() > 1;
    let share = move |at| slider.value(at).map_or(0.0, |value| position(&slider.field.scale(), value));
    view! {
        <div
            class="reach"
            style:left=move || percent(if two { share(0) } else { 0.0 })
            style:right=move || percent(1.0 - share(usize::from(two)))
        ></div>
    }
}

fn graduation(mark: &Mark) -> impl IntoView + use<> {
    let class = match mark.at {
        _ if mark.label.is_empty() => "mark short",
        at if at < 0.02 => "mark first",
        at if at > 0.98 => "mark last",
        _ => "mark",
    };
    view! {
        <span class=class style:left=percent(mark.at)>
            {mark.label.clone()}
        </span>
    }
}

/// What moves along the scale, and is moved by keys.
#[component]
fn ThumbHandle(
    /// Its slider.
    slider: SliderState,
    /// Which thumb.
    at: usize,
) -> impl IntoView {
    let gesture = SliderGesture(slider);
    let (field, limit) = (slider.field, slider.limit(at));
    let number = move |value| field.decimal(value, slider.units());
    let now = move || slider.value(at).unwrap_or(limit.usual);
    view! {
        <div
            class="needle"
            role="slider"
            tabindex="0"
            aria-label=field.thumb_name(at)
            aria-valuemin=move || number(limit.least)
            aria-valuemax=move || number(limit.most)
            aria-valuenow=move || number(now())
            aria-valuetext=move || field.value_text(at, now(), slider.units())
            style:left=move || percent(position(&field.scale(), now()))
            node_ref=slider.thumbs[at]
            on:keydown=move |event| gesture.press(at, &event)
        ></div>
    }
}

fn percent(share: f64) -> String {
    format!("{}%", fixed(share * 100.0, 2))
}
