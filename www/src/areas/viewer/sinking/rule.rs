//! The sink rule: how far the glass has sunk, against time. It is the needle's line.

use super::gesture::Gesture;
use super::thumb::SinkThumb;
use super::ticks::{multiples, round_step};
use crate::areas::viewer::seen::percent;
use crate::model::sinking::{Course, Curve};
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// The plot is drawn on so many units across and down, and stretched to its place.
const PLOT: (f64, f64) = (1000.0, 100.0);
/// The deepest curve ends at so much of the plot's height.
const DEEPEST: f64 = 0.92;
/// The names of the thin curves stand where they have sunk so much of the deepest.
const NAMED_AT: f64 = 0.62;
/// Numbers at the axes, at most: of minutes, of temperatures on the way up, of depths.
const MARKS: (f64, f64, f64) = (9.0, 2.0, 2.5);
/// Two marks nearer than this share of the rule would run into each other.
const NEAR: f64 = 0.085;
/// The same on a phone, where those nearer to the one that says when it is full, or to the one at the end, are left out.
const TIGHT: f64 = 0.24;
/// A mark farther along than this stands before its tick.
const LAST: f64 = 0.96;

/// The rule.
#[component]
pub fn SinkRule() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let gesture = Gesture::new();
    let title = move || {
        let course = sinking.course()?;
        Some(words::rule_title(course.top(), preferences.units.get()))
    };
    let faster = move || Some(words::hotter(sinking.course()?.faster()?, preferences.units.get()));
    view! {
        <div class="sink-rule">
            <p class="aside">
                <span>{title}</span>
                <span>{faster}</span>
            </p>
            <div
                class="sink-plot"
                class:dragged=move || sinking.dragged.get()
                on:pointerdown=move |event| gesture.grip(&event)
                on:pointermove=move |event| gesture.pull(&event)
                on:pointerup=move |_| gesture.let_go()
                on:pointercancel=move |_| gesture.let_go()
            >
                <Curves />
                <SinkThumb class="needle sink-needle" />
            </div>
            <Times />
        </div>
    }
}

/// The three curves with their depths and names.
#[component]
fn Curves() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let curves = move || {
        let course = sinking.course()?;
        let top = course.top();
        let path = |one: &Curve| {
            let class = if one.top == top { "sink-curve" } else { "sink-thin" };
            view! { <path class=class d=line(&course, one) /> }
        };
        Some(course.curves().iter().map(path).collect_view())
    };
    let grid = move || sinking.course().map(|course| grid(&course, preferences.units.get()));
    let names = move || {
        let (course, units) = (sinking.course()?, preferences.units.get());
        Some(course.curves().iter().map(|curve| name(&course, curve, units)).collect_view())
    };
    let depths = move || {
        let (course, units) = (sinking.course()?, preferences.units.get());
        let depth = |mm: f64| {
            let down = percent((down(&course, mm) / PLOT.1) as f32);
            view! { <span class="sink-mark down" style:top=down>{units.length_decimal(units.length(mm))}</span> }
        };
        Some(depths(&course, units).map(depth).collect_view())
    };
    view! {
        <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true">
            <path class="sink-grid" d=grid />
            {curves}
        </svg>
        <div class="sink-axes" aria-hidden="true">{depths} {names}</div>
    }
}

/// What stands under the rule: temperatures before the hold, minutes after; where it is full, and where the recipe stops.
#[component]
fn Times() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let marks = move || {
        let (course, units) = (sinking.course()?, preferences.units.get());
        let full = course.full_at().map(|full| course.share(full));
        let marks = times(&course, units);
        let end = marks.iter().map(|mark| mark.0).find(|at| *at > LAST);
        let mark = move |(at, label): (f64, String)| {
            let last = at > LAST;
            let close = |other: Option<f64>| other.is_some_and(|other| (other - at).abs() < TIGHT);
            let tight = close(full) || (!last && close(end));
            view! {
                <span class="sink-mark out" class:last=last class:tight=tight style:left=percent(at as f32)>
                    {label}
                </span>
            }
        };
        Some(marks.into_iter().map(mark).collect_view())
    };
    let full = move || {
        let course = sinking.course()?;
        let full = course.full_at()?;
        let place = percent(course.share(full) as f32);
        let take = move |_| sinking.hold(words::did::SLUMP_HOLD, None);
        Some(view! {
            <button class="sink-mark out sink-full" style:left=place on:click=take>
                {words::full_at(full)}
            </button>
        })
    };
    view! {
        <div class="sink-times">
            <div aria-hidden="true">{marks}</div>
            {full}
        </div>
    }
}

/// How far down the plot a depth lies.
fn down(course: &Course, mm: f64) -> f64 {
    DEEPEST * PLOT.1 * mm / course.deepest()
}

/// How far along the rule each depth of a curve lies.
fn shares(curve: &Curve) -> impl Iterator<Item = (f64, f64)> {
    let last = (curve.depths.len() - 1) as f64;
    curve.depths.iter().enumerate().map(move |(at, mm)| (at as f64 / last, *mm))
}

/// A curve as straights.
fn line(course: &Course, curve: &Curve) -> String {
    let point = |(share, mm)| format!("{} {}", fixed(PLOT.0 * share, 1), fixed(down(course, mm), 2));
    format!("M{}", shares(curve).map(point).collect::<Vec<_>>().join("L"))
}

/// Round depths, mm.
fn depths(course: &Course, units: Units) -> impl Iterator<Item = f64> + use<> {
    let unit = 1.0 / units.length(1.0);
    let deepest = course.deepest();
    multiples(unit * round_step(deepest / unit, MARKS.2), 0.0, deepest / DEEPEST)
}

/// A level line at each of them.
fn grid(course: &Course, units: Units) -> String {
    let line = |mm| format!("M0 {0}H{1}", fixed(down(course, mm), 2), PLOT.0);
    depths(course, units).map(line).collect()
}

/// The name of a thin curve, beside it.
fn name(course: &Course, curve: &Curve, units: Units) -> Option<impl IntoView + use<>> {
    let (mm, top) = (NAMED_AT * course.deepest(), course.top());
    // A name at the very beginning would stand among the depths.
    let (share, _) = shares(curve).find(|(share, depth)| *depth >= mm && *share > 2.0 * NEAR)?;
    let class = if curve.top.0 > top.0 { "sink-name hot" } else { "sink-name cold" };
    let (left, top_edge) = (percent(share as f32), percent((down(course, mm) / PLOT.1) as f32));
    let said = words::heat(curve.top, units);
    (curve.top != top).then(|| view! { <span class=class style:left=left style:top=top_edge>{said}</span> })
}

/// Marks along the time: where on the rule, and what they say. None stands where another one does.
fn times(course: &Course, units: Units) -> Vec<(f64, String)> {
    let (first, last) = course.span();
    let mut marks = vec![(course.share(0.0), words::heat(course.top(), units))];
    let full = course.full_at().map(|full| course.share(full));
    if let Some(hold) = course.hold() {
        marks.push((course.share(course.ends()), words::stops_at(hold)));
    }
    let minutes = multiples(round_step(last - first, MARKS.0), 1.0, last);
    let minutes = minutes.map(|at| (course.share(at), words::slump_time(at)));
    let heats = multiples(round_step(-first, MARKS.1), first, -1.0);
    let heats = heats.map(|at| (course.share(at), words::heat(course.heat(at), units)));
    for mark in minutes.rev().chain(heats) {
        let clear = |at: f64| (at - mark.0).abs() > NEAR;
        if marks.iter().all(|other| clear(other.0))
            && full.is_none_or(|full| (full - mark.0).abs() > 1.4 * NEAR)
        {
            marks.push(mark);
        }
    }
    marks
}
