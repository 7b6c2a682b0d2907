//! A graduated rule: label, value to type, scale with its needles.

use super::canvas::show_strip;
use super::dom::{El, always, el, memo};
use super::hold::Hold;
use super::rules::{Mark, Place, Rule, marks, position, value_at};
use super::state::Bench;
use super::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use dappledome::optics::test_tile;
use dappledome::picture::view::Light;
use leptos::prelude::*;
use web_sys::{FocusEvent, HtmlInputElement, KeyboardEvent, PointerEvent};

/// Colors along a test tile.
const TILE_COLORS: usize = 64;

/// A rule for one place of the recipe.
pub fn rule(bench: Bench, rule: &'static Rule, place: Place) -> El {
    let needles: Vec<El> = rule.needles.iter().map(|_| el("div", "needle")).collect();
    let hold = Hold::new(bench, rule, place, &needles);
    let values = (0..rule.needles.len()).map(|at| value(hold, at));
    let label = el("span", "label").says(rule.label).on("dblclick", move |_: &PointerEvent| hold.usual());
    let head = el("div", "rule-head").with(label).with(el("span", "values").with_all(values));
    let class = match (rule.tile, rule.needles.len() > 1) {
        (false, false) => "rule",
        (false, true) => "rule two",
        (true, false) => "rule tile",
        (true, true) => "rule tile two",
    };
    let said = move || words::typing_help(rule.unit.kind(), bench.units.get()).into();
    let help = move || el("p", "refused").is("role", "alert").reads(said);
    el("div", class).with(head).with(scale(hold, needles)).when(move || hold.refused.get(), help)
}

/// The first of two values goes without its unit: the second one has it.
fn beside_label(rule: &Rule, at: usize, value: f64, units: Units) -> String {
    if at + 1 < rule.needles.len() { rule.number(value, units) } else { rule.say(at, value, units) }
}

fn value(hold: Hold, at: usize) -> El {
    let said = move || {
        let units = hold.bench.units.get();
        hold.value(at).map_or_else(String::new, |value| beside_label(hold.rule, at, value, units))
    };
    let name = words::needle(hold.rule, at);
    let typing =
        memo(move || hold.typing.with(|typing| typing.as_ref().is_some_and(|(needle, _)| *needle == at)));
    let shown = move || {
        if typing.get() {
            return vec![typing_field(hold, at)];
        }
        let value = el("button", "value")
            .is("tabindex", "-1")
            .live("aria-label", move || words::type_value(name, &said()))
            .press(move || hold.type_into(at, hold.shown(at)))
            .reads(said);
        vec![value]
    };
    let dash = (at > 0).then(|| el("span", "dash").says("–"));
    el("span", "").with_all(dash).holds(shown)
}

fn typing_field(hold: Hold, at: usize) -> El {
    let begin = hold.typing.with_untracked(|typing| typing.as_ref().map(|(_, begin)| begin.clone()));
    let begin = begin.unwrap_or_default();
    let field = el("input", "typed")
        .is("type", "text")
        .is("autocomplete", "off")
        .is("aria-label", words::needle(hold.rule, at))
        .live_flag("aria-invalid", move || hold.refused.get());
    let input: HtmlInputElement = field.cast();
    input.set_value(&begin);
    let at_hand = input.clone();
    // Once it is on the page.
    queue_microtask(move || {
        // A field that cannot be focused can still be clicked.
        let _ = at_hand.focus();
        if begin.chars().count() > 1 {
            at_hand.select();
        }
    });
    let typed = input.clone();
    field
        .on("keydown", move |event: &KeyboardEvent| {
            match event.key().as_str() {
                "Enter" => hold.take(at, &typed.value()),
                "Escape" => hold.typed(at),
                _ => return,
            }
            event.stop_propagation();
        })
        .on("blur", move |_: &FocusEvent| {
            if hold.typing.try_get_untracked().flatten().is_some() {
                hold.leave(at, &input.value());
            }
        })
}

fn scale(hold: Hold, needles: Vec<El>) -> El {
    let rule = hold.rule;
    let at =
        move |needle: usize| hold.value(needle).map_or(0.0, |value| position(&rule.scale(), value) * 100.0);
    let two = rule.needles.len() > 1;
    let reach = el("div", "reach")
        .style("left", move || percent(if two { at(0) } else { 0.0 }))
        .style("right", move || percent(100.0 - at(usize::from(two))));
    let graduations = move || marks(rule, hold.bench.units.get()).iter().map(graduation).collect();
    let marks = el("div", "marks").is("aria-hidden", "true").holds(graduations);
    el("div", "scale")
        .class_when("dragged", move || hold.drag.with(Option::is_some))
        .on("pointerdown", move |event: &PointerEvent| hold.grip(event))
        .on("pointermove", move |event: &PointerEvent| hold.pull(event))
        .on("pointerup", move |_: &PointerEvent| hold.let_go())
        .on("pointercancel", move |_: &PointerEvent| hold.put_back())
        .with_all(rule.tile.then(|| tile(hold)))
        .with(el("div", "line"))
        .with(reach)
        .with(marks)
        .with_all(needles.into_iter().enumerate().map(|(at, one)| needle(hold, at, one)))
}

fn percent(share: f64) -> String {
    format!("{}%", fixed(share, 2))
}

fn graduation(mark: &Mark) -> El {
    let class = match mark.at {
        _ if mark.label.is_empty() => "mark short",
        at if at < 0.02 => "mark first",
        at if at > 0.98 => "mark last",
        _ => "mark",
    };
    let left = percent(mark.at * 100.0);
    el("span", class).style("left", move || left.clone()).says(&mark.label)
}

fn needle(hold: Hold, at: usize, needle: El) -> El {
    let rule = hold.rule;
    let limit = &rule.needles[at].limit;
    let number = move |value: f64| rule.number(value, hold.bench.units.get());
    let now = move || hold.value(at).unwrap_or(limit.usual);
    needle
        .is("role", "slider")
        .is("tabindex", "0")
        .is("aria-label", words::needle(rule, at))
        .live("aria-valuemin", move || number(limit.least))
        .live("aria-valuemax", move || number(limit.most))
        .live("aria-valuenow", move || number(now()))
        .live("aria-valuetext", move || words::value_text(rule, at, now(), hold.bench.units.get()))
        .style("left", move || percent(position(&rule.scale(), now()) * 100.0))
        .on("keydown", move |event: &KeyboardEvent| hold.key(at, event))
}

/// The test tile: the fired color at every depth of the scale, on what lies under it, by the present light.
fn tile(hold: Hold) -> El {
    let strip = el("canvas", "test-tile").is("aria-hidden", "true");
    let scale = hold.rule.scale();
    let depths: Vec<f32> =
        (0..TILE_COLORS).map(|at| value_at(&scale, (at as f64 + 0.5) / TILE_COLORS as f64) as f32).collect();
    let colors = memo(move || {
        let within = hold.bench.light.get() == Light::Within;
        let made = hold.bench.board.with(|board| board.made.clone());
        test_tile::strip(&made.1, hold.place.coat, &depths, within)
    });
    let canvas = strip.cast();
    always(move || colors.with(|colors| show_strip(&canvas, colors)));
    strip
}
