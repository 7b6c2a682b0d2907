//! A chart on the page. It is as wide as its place.

use super::layout::{Frame, Placed, ticks_with_room, words};
use super::types::{Chart, Line, Table, Weight};
use leptos::html;
use leptos::prelude::*;
use leptos_use_resize_observer::use_resize_observer;

/// Width of most charts before they are laid out, px.
const USUAL_WIDTH: f64 = 752.0;

/// A chart, and the table that says the same.
#[component]
pub fn ChartView(
    /// What it shows.
    #[prop(into)]
    chart: Signal<Chart>,
    /// Its height, px.
    height: f64,
    /// What it is, above its table.
    #[prop(into)]
    name: Signal<String>,
    /// The same in numbers.
    #[prop(into)]
    table: Signal<Table>,
    /// Its width until it is laid out, px; on paper, for which nothing is laid out anew, for good.
    #[prop(default = USUAL_WIDTH)]
    width: f64,
) -> impl IntoView {
    let place = NodeRef::<html::Div>::new();
    let width = RwSignal::new(width);
    use_resize_observer(place, move |_, _| {
        // The page may be going.
        let now = place.try_get_untracked().flatten().map(|place| f64::from(place.offset_width()));
        if let Some(now) = now.filter(|now| *now > 1.0 && *now != width.get_untracked()) {
            width.set(now);
        }
    });
    let draw = move || chart.with(|chart| drawing(chart, width.get(), height));
    view! {
        <div class="chart" node_ref=place>
            <svg
                aria-hidden="true"
                width=move || width.get().to_string()
                height=height.to_string()
                viewBox=move || format!("0 0 {} {height}", width.get())
            >
                {draw}
            </svg>
            <table class="unseen">
                <caption>{move || name.get()}</caption>
                {move || table.with(rows)}
            </table>
        </div>
    }
}

fn rows(table: &Table) -> impl IntoView + use<> {
    let heads = table.heads.iter().cloned().map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    let rows = table.rows.iter().cloned().map(|row| {
        let cells = row.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view();
        view! { <tr>{cells}</tr> }
    });
    view! {
        <thead>
            <tr>{heads}</tr>
        </thead>
        <tbody>{rows.collect_view()}</tbody>
    }
}

fn drawing(chart: &Chart, width: f64, height: f64) -> impl IntoView + use<> {
    let frame = Frame::of(chart, width, height);
    let levels = chart.levels.iter().map(|level| {
        let (_, y) = frame.place(chart, (chart.x.from, level.at));
        view! { <line class="chart-level" x1=frame.left x2=frame.right y1=y y2=y /> }
    });
    let lines = chart.lines.iter().map(|line| {
        view! { <path class=class_of(line) d=frame.path(chart, &line.points) /> }
    });
    let dots = chart.dots.iter().map(|dot| {
        let (x, y) = frame.place(chart, *dot);
        view! { <circle class="chart-dot" cx=x cy=y r="3" /> }
    });
    let words = words(chart, &frame).into_iter().map(word);
    view! {
        <g>{upright(chart, &frame)}</g>
        <g>{lying(chart, &frame)}</g>
        <g>{levels.collect_view()}</g>
        <g>{lines.collect_view()}</g>
        <g>{dots.collect_view()}</g>
        <g>{words.collect_view()}</g>
    }
}

/// The graduations of the upright axis, each a line across.
fn upright(chart: &Chart, frame: &Frame) -> impl IntoView + use<> {
    let (left, right) = (frame.left, frame.right);
    let ticks = chart.y.ticks.iter().map(|tick| {
        let (_, y) = frame.place(chart, (chart.x.from, tick.at));
        let label = tick.label.clone();
        view! {
            <line class="chart-grid" x1=left x2=right y1=y y2=y />
            <text class="chart-word" x=left - 6.0 y=y + 4.0 text-anchor="end">{label}</text>
        }
    });
    ticks.collect_view()
}

/// The lying axis.
fn lying(chart: &Chart, frame: &Frame) -> impl IntoView + use<> {
    let bottom = frame.bottom;
    let axis = (!chart.x.ticks.is_empty()).then(|| {
        view! { <line class="chart-axis" x1=frame.left x2=frame.right y1=bottom y2=bottom /> }
    });
    let ticks = ticks_with_room(chart, frame).into_iter().map(|(x, label)| {
        view! {
            <line class="chart-axis" x1=x x2=x y1=bottom y2=bottom + 5.0 />
            <text class="chart-word" x=x y=bottom + 18.0 text-anchor="middle">{label}</text>
        }
    });
    (axis, ticks.collect_view())
}

fn word(word: Placed) -> impl IntoView {
    let class = if word.strong { "chart-word strong" } else { "chart-word" };
    view! { <text class=class x=word.x y=word.y text-anchor=word.anchor>{word.text}</text> }
}

fn class_of(line: &Line) -> &'static str {
    match line.weight {
        Weight::Plain => "chart-line",
        Weight::Strong => "chart-line strong",
        Weight::Filled => "chart-line filled",
    }
}
