//! The drawn section: the glass in its mold, its own thickness at every ring.

use super::outline::Frame;
use super::ticks::{multiples, round_step};
use crate::areas::viewer::seen::percent;
use crate::model::sinking::touching;
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// The words beside the drawing stand so far down it, as shares of its height.
const NOTES: [f64; 3] = [0.14, 0.5, 0.86];
/// A drawing so many times wider than high has no room for three notes of two lines beside it.
const LOW: f64 = 4.5;
/// Marks along an axis, at most: across, and down.
const MARKS: (f64, f64) = (9.0, 4.0);

/// The section, with its axes and the words beside it.
#[component]
pub fn MoldSection() -> impl IntoView {
    let sinking = expect_context::<Sinking>();
    let frame = Memo::new(move |_| sinking.course().map(|course| Frame::of(&course)));
    let drawn = move |of: fn(&Frame) -> String| frame.get().map(|frame| of(&frame));
    view! {
        <div class="sink-section" class:low=move || frame.get().is_some_and(|frame| frame.ratio() > LOW)>
            <div class="sink-drawing" style:aspect-ratio=move || drawn(|frame| fixed(frame.ratio(), 3))>
                <Drawing frame />
                <Axes frame />
            </div>
            <Notes />
        </div>
    }
}

/// Mold, glass, where it will lie, and where it touches.
#[component]
fn Drawing(
    /// What of the section is drawn.
    frame: Memo<Option<Frame>>,
) -> impl IntoView {
    let sinking = expect_context::<Sinking>();
    let moment = sinking.moment;
    let mold = move || Some(frame.get()?.mold(&*sinking.course()?));
    let glass = move || Some(frame.get()?.glass(&*moment.get()?));
    let will_lie = move || {
        let course = sinking.course()?;
        Some(frame.get()?.inner_face(&course.at_end()))
    };
    let touches = Memo::new(move |_| Some(frame.get()?.touches(&*moment.get()?)));
    let lines = move || touches.get().map(|touches| touches.0);
    let dots = move || touches.get().map(|touches| touches.1);
    view! {
        <svg viewBox=move || frame.get().map(|frame| frame.view_box()) aria-hidden="true">
            <path class="sink-mold" d=mold />
            <path class="sink-will-lie" d=will_lie />
            <path class="sink-glass" d=glass />
            <path class="sink-touches" d=lines />
            <path class="sink-dots" d=dots />
            <Leaders frame />
        </svg>
    }
}

/// From the words beside the drawing to what they are about.
#[component]
fn Leaders(
    /// What of the section is drawn.
    frame: Memo<Option<Frame>>,
) -> impl IntoView {
    let moment = expect_context::<Sinking>().moment;
    let leaders = move || {
        let (frame, moment) = (frame.get()?, moment.get()?);
        let nodes = &moment.shape.nodes;
        let rim = nodes.len() - 1;
        let outermost = (0..=rim).rev().find(|ring| moment.touches(*ring));
        let below = |ring: usize| (nodes[ring].0, nodes[ring].1 - moment.shape.thickness(ring) / 2.0);
        let touch = outermost.map(|ring| frame.leader(below(ring), NOTES[0]));
        let thick = frame.leader(nodes[rim * 2 / 5], NOTES[1]);
        let (crown, gap) = (below(0), moment.gaps[0]);
        let to_go = (gap >= 0.5).then(|| frame.leader((crown.0, crown.1 - gap / 2.0), NOTES[2]));
        Some([touch, Some(thick), to_go].into_iter().flatten().collect::<String>())
    };
    view! { <path class="sink-leaders" d=leaders /> }
}

/// The words beside the drawing; on a phone, under it.
#[component]
fn Notes() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let notes = move || {
        let (moment, units) = (sinking.moment.get()?, preferences.units.get());
        let rim = moment.shape.nodes.len() - 1;
        let thickness = |ring| moment.shape.thickness(ring);
        let said = [
            words::touches(touching(&moment)).to_owned(),
            words::thick_from_to(thickness(0), thickness(rim), units),
            words::to_go(moment.gaps[0], units),
        ];
        let note =
            |(words, down): (String, f64)| view! { <li style=("--down", percent(down as f32))>{words}</li> };
        Some(said.into_iter().zip(NOTES).map(note).collect_view())
    };
    view! { <ul class="sink-notes">{notes}</ul> }
}

/// mm down and out.
#[component]
fn Axes(
    /// What of the section is drawn.
    frame: Memo<Option<Frame>>,
) -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    let marks = move || {
        let (frame, units) = (frame.get()?, preferences.units.get());
        let mark = |(left, top, label): (f64, f64, String)| {
            // Those down the side stand to the left of the drawing, wherever that is.
            let out = left > 0.0;
            let left = if out { percent(left as f32) } else { String::new() };
            let class = if out { "sink-mark out" } else { "sink-mark down" };
            view! { <span class=class style:left=left style:top=percent(top as f32)>{label}</span> }
        };
        Some(marks(&frame, units).into_iter().map(mark).collect_view())
    };
    let unit = move || format!("{} {}", preferences.units.get().length_sign(), words::FROM_THE_CROWN);
    view! {
        <div class="sink-axes" aria-hidden="true">
            {marks} <span class="sink-unit">{unit}</span>
        </div>
    }
}

/// The marks of both axes: how far across and down the drawing, and their numbers.
fn marks(frame: &Frame, units: Units) -> Vec<(f64, f64, String)> {
    // One of the shown unit in mm.
    let unit = 1.0 / units.length(1.0);
    let step = |length: f64, most: f64| unit * round_step(length / unit, most);
    let label = |mm: f64| units.length_decimal(units.length(mm.abs()));
    let out = multiples(step(2.0 * frame.half, MARKS.0), -0.95 * frame.half, 0.95 * frame.half);
    let height = frame.top - frame.bottom;
    let down = multiples(step(height, MARKS.1), frame.bottom, frame.top);
    let out = out.map(|mm| (frame.across(mm), 1.0, label(mm)));
    out.chain(down.map(|mm| (0.0, frame.down(mm), label(mm)))).collect()
}
