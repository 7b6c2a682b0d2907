//! A graduated rule: label, value to type, scale with its needles.

use super::canvas::show_strip;
use super::hold::Hold;
use super::rules::{Mark, Place, Rule, marks, position, value_at};
use super::state::Bench;
use super::words;
use dappledome::base::units::plain;
use dappledome::optics::test_tile;
use dappledome::picture::view::Light;
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

/// Colors along a test tile.
const TILE_COLORS: usize = 64;

/// A rule for one place of the recipe.
pub fn rule(bench: Bench, rule: &'static Rule, place: Place) -> AnyView {
    let hold = Hold::new(bench, rule, place);
    let values = (0..rule.needles.len()).map(|at| value(hold, at)).collect_view();
    view! {
        <div class="rule" class:tile=rule.tile class:two=(rule.needles.len() > 1)>
            <div class="rule-head">
                <span class="label" on:dblclick=move |_| hold.usual()>{rule.label}</span>
                <span class="values">{values}</span>
            </div>
            {scale(hold)}
            <Show when=move || hold.refused.get()>
                <p class="refused" role="alert">{words::typing_help(rule.unit.kind())}</p>
            </Show>
        </div>
    }
    .into_any()
}

/// The first of two values goes without its unit: the second one has it.
fn beside_label(rule: &Rule, at: usize, value: f64) -> String {
    if at + 1 < rule.needles.len() { plain(value * rule.unit.factor()) } else { rule.say(at, value) }
}

fn value(hold: Hold, at: usize) -> AnyView {
    let said = Memo::new(move |_| {
        hold.value(at).map_or_else(String::new, |value| beside_label(hold.rule, at, value))
    });
    let name = words::needle(hold.rule, at);
    let typing = move || hold.typing.with(|typing| typing.as_ref().is_some_and(|(needle, _)| *needle == at));
    let dash = (at > 0).then_some(view! { <span class="dash">"–"</span> });
    view! {
        {dash}
        <Show
            when=typing
            fallback=move || {
                view! {
                    <button
                        class="value"
                        tabindex="-1"
                        aria-label=move || words::type_value(name, &said.get())
                        on:click=move |_| hold.type_into(at, hold.shown(at))
                    >
                        {said}
                    </button>
                }
            }
        >
            {typing_field(hold, at)}
        </Show>
    }
    .into_any()
}

fn typing_field(hold: Hold, at: usize) -> AnyView {
    let field = NodeRef::<html::Input>::new();
    let begin = hold.typing.with_untracked(|typing| typing.as_ref().map(|(_, begin)| begin.clone()));
    let begin = begin.unwrap_or_default();
    let one_digit = begin.chars().count() == 1;
    Effect::new(move || {
        if let Some(field) = field.get() {
            // A field that cannot be focused can still be clicked.
            let _ = field.focus();
            if !one_digit {
                field.select();
            }
        }
    });
    let keys = move |event: KeyboardEvent| {
        let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        match (event.key().as_str(), input) {
            ("Enter", Some(input)) => hold.take(at, &input.value()),
            ("Escape", _) => hold.typed(at),
            _ => return,
        }
        event.stop_propagation();
    };
    view! {
        <input
            class="typed"
            node_ref=field
            type="text"
            autocomplete="off"
            aria-label=words::needle(hold.rule, at)
            aria-invalid=move || hold.refused.get().then_some("true")
            prop:value=begin
            on:keydown=keys
            on:blur=move |event| {
                if hold.typing.with_untracked(Option::is_some) {
                    hold.leave(at, &event_target_value(&event));
                }
            }
        />
    }
    .into_any()
}

fn scale(hold: Hold) -> AnyView {
    let rule = hold.rule;
    let needles = (0..rule.needles.len()).map(|at| needle(hold, at)).collect_view();
    let graduations = marks(rule).into_iter().map(graduation).collect_view();
    let at =
        move |needle: usize| hold.value(needle).map_or(0.0, |value| position(&rule.scale(), value) * 100.0);
    let two = rule.needles.len() > 1;
    let from = move || format!("{:.2}%", if two { at(0) } else { 0.0 });
    let to = move || format!("{:.2}%", 100.0 - at(usize::from(two)));
    view! {
        <div
            class="scale"
            class:dragged=move || hold.drag.with(Option::is_some)
            on:pointerdown=move |event| hold.grip(&event)
            on:pointermove=move |event| hold.pull(&event)
            on:pointerup=move |_| hold.let_go()
            on:pointercancel=move |_| hold.put_back()
        >
            {rule.tile.then(|| tile(hold))}
            <div class="line"></div>
            <div class="reach" style:left=from style:right=to></div>
            <div class="marks" aria-hidden="true">{graduations}</div>
            {needles}
        </div>
    }
    .into_any()
}

fn graduation(mark: Mark) -> AnyView {
    let left = format!("{:.2}%", mark.at * 100.0);
    let class = match mark.at {
        _ if mark.label.is_empty() => "mark short",
        at if at < 0.02 => "mark first",
        at if at > 0.98 => "mark last",
        _ => "mark",
    };
    view! { <span class=class style:left=left>{mark.label}</span> }.into_any()
}

fn needle(hold: Hold, at: usize) -> AnyView {
    let rule = hold.rule;
    let limit = &rule.needles[at].limit;
    let factor = rule.unit.factor();
    let left =
        move || format!("{:.2}%", hold.value(at).map_or(0.0, |value| position(&rule.scale(), value) * 100.0));
    view! {
        <div
            class="needle"
            node_ref=hold.needles[at]
            role="slider"
            tabindex="0"
            aria-label=words::needle(rule, at)
            aria-valuemin=limit.least * factor
            aria-valuemax=limit.most * factor
            aria-valuenow=move || hold.value(at).map(|value| value * factor)
            aria-valuetext=move || hold.value(at).map(|value| words::value_text(rule, at, value))
            style:left=left
            on:keydown=move |event| hold.key(at, &event)
        ></div>
    }
    .into_any()
}

/// The test tile: the fired color at every depth of the scale, on what lies under it, by the present light.
fn tile(hold: Hold) -> AnyView {
    let canvas = NodeRef::<html::Canvas>::new();
    let scale = hold.rule.scale();
    let depths: Vec<f32> =
        (0..TILE_COLORS).map(|at| value_at(&scale, (at as f64 + 0.5) / TILE_COLORS as f64) as f32).collect();
    let colors = Memo::new(move |_| {
        let within = hold.bench.light.get() == Light::Within;
        let plan = hold.bench.board.with(|board| board.made.clone());
        test_tile::strip(&plan.1, hold.place.coat, &depths, within)
    });
    Effect::new(move || {
        if let Some(canvas) = canvas.get() {
            colors.with(|colors| show_strip(&canvas, colors));
        }
    });
    view! { <canvas class="test-tile" node_ref=canvas aria-hidden="true"></canvas> }.into_any()
}
