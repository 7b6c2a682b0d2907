//! A graduated rule: label, value to type, scale with its needles.

use super::canvas::show_strip;
use super::rules::{Mark, Needle, Place, Rule, Unit, marks, position, tidy, value_at};
use super::state::Bench;
use super::words;
use crate::base::typed;
use crate::base::units::plain;
use crate::optics::test_tile;
use crate::picture::view::Light;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

/// Colors along a test tile.
const TILE_COLORS: usize = 64;

/// What a rule's event handlers share.
#[derive(Clone, Copy)]
struct Hold {
    bench: Bench,
    rule: &'static Rule,
    place: Place,
    /// The needle whose value is being typed, and what it begins with.
    typing: RwSignal<Option<(usize, String)>>,
    /// What is wrong with what was typed.
    refused: RwSignal<bool>,
    /// The drag under way.
    drag: RwSignal<Option<Drag>>,
    /// The needles on the page.
    needles: [NodeRef<html::Div>; 2],
}

/// A needle being dragged.
#[derive(Clone, Copy)]
struct Drag {
    needle: usize,
    pointer: i32,
    /// Where the needle would be on the scale if it had no steps, 0 to 1.
    at: f64,
    x: f64,
    /// Its value when the drag began.
    was: f64,
}

impl Hold {
    fn needle(&self, at: usize) -> &'static Needle {
        &self.rule.needles[at]
    }

    fn value(&self, at: usize) -> Option<f64> {
        self.bench.recipe.with(|recipe| (self.needle(at).get)(recipe, self.place))
    }

    fn now(&self, at: usize) -> f64 {
        let recipe = self.bench.recipe.read_untracked();
        (self.needle(at).get)(&recipe, self.place).unwrap_or(self.needle(at).limit.usual)
    }

    /// Sets a value. Of two needles the one that is met moves along.
    fn set(&self, at: usize, value: f64) {
        if value == self.now(at) {
            return;
        }
        let (rule, place) = (self.rule, self.place);
        self.bench.edit(words::lower(rule.label).as_str(), &|recipe| {
            (rule.needles[at].set)(recipe, place, value);
            if let [low, high] = rule.needles {
                let (Some(from), Some(to)) = ((low.get)(recipe, place), (high.get)(recipe, place)) else {
                    return;
                };
                if from > to {
                    let other = if at == 0 { high } else { low };
                    (other.set)(recipe, place, value.clamp(other.limit.least, other.limit.most));
                }
            }
        });
    }

    fn step(&self, at: usize, steps: f64, fine: bool) {
        let limit = self.needle(at).limit;
        let step = if fine { self.finest(at) } else { limit.step };
        self.set(at, tidy(&limit, step, self.now(at) + steps * step));
    }

    /// A tenth of a step, or the least that a value is written with.
    fn finest(&self, at: usize) -> f64 {
        let step = self.needle(at).limit.step;
        if self.rule.unit.whole() { step } else { (step / 10.0).max(0.01 / self.rule.unit.factor()) }
    }

    fn usual(&self) {
        for at in 0..self.rule.needles.len() {
            self.set(at, self.needle(at).limit.usual);
        }
    }

    fn type_into(&self, at: usize, begin: String) {
        self.refused.set(false);
        self.typing.set(Some((at, begin)));
    }

    /// Ends the typing and goes back to the needle.
    fn typed(&self, at: usize) {
        self.refused.set(false);
        self.typing.set(None);
        self.focus(at);
    }

    fn focus(&self, at: usize) {
        if let Some(needle) = self.needles[at].get_untracked() {
            // A needle that cannot be focused still moves.
            let _ = needle.focus();
        }
    }

    /// Takes what was typed, or says what can be.
    fn take(&self, at: usize, text: &str) {
        match self.understood(at, text) {
            Some(value) => {
                self.set(at, value);
                self.typed(at);
            }
            None => self.refused.set(true),
        }
    }

    /// The value that was typed, within its range.
    fn understood(&self, at: usize, text: &str) -> Option<f64> {
        let unit = self.rule.unit;
        let never = unit == Unit::Rolls && text.trim().eq_ignore_ascii_case("never");
        let limit = self.needle(at).limit;
        let value = if never { Some(limit.most) } else { typed::read(text, unit.kind()) };
        let value = value? / if unit == Unit::Spoon { unit.factor() } else { 1.0 };
        Some(tidy(&limit, if unit.whole() { 1.0 } else { 1e-3 }, value))
    }

    /// Takes what was typed if it can be, without going back to the needle: the maker is elsewhere already.
    fn leave(&self, at: usize, text: &str) {
        if let Some(value) = self.understood(at, text) {
            self.set(at, value);
        }
        self.refused.set(false);
        self.typing.set(None);
    }

    fn key(&self, at: usize, event: &KeyboardEvent) {
        let limit = self.needle(at).limit;
        let fine = event.shift_key();
        match event.key().as_str() {
            "ArrowRight" | "ArrowUp" => self.step(at, 1.0, fine),
            "ArrowLeft" | "ArrowDown" => self.step(at, -1.0, fine),
            "PageUp" => self.step(at, 10.0, false),
            "PageDown" => self.step(at, -10.0, false),
            "Home" => self.set(at, limit.least),
            "End" => self.set(at, limit.most),
            "Backspace" => self.set(at, limit.usual),
            "Escape" if self.drag.with_untracked(Option::is_some) => self.put_back(),
            "Enter" => self.type_into(at, self.shown(at)),
            key if key.len() == 1
                && key.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '.') =>
            {
                if event.ctrl_key() || event.meta_key() || event.alt_key() {
                    return;
                }
                self.type_into(at, key.into());
            }
            _ => return,
        }
        event.prevent_default();
        event.stop_propagation();
    }

    fn shown(&self, at: usize) -> String {
        self.rule.unit.say(self.now(at), &self.needle(at).limit)
    }

    fn grip(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let Some((scale, share)) = on_scale(event) else { return };
        let far = |at: &usize| (position(&self.rule.scale(), self.now(*at)) - share).abs();
        let needle = (0..self.rule.needles.len()).min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0);
        // Without capture the drag ends at the rule's edge; nothing else is lost.
        let _ = scale.set_pointer_capture(event.pointer_id());
        self.bench.history.drag(true);
        let was = self.now(needle);
        let at = position(&self.rule.scale(), was);
        let x = f64::from(event.client_x());
        self.drag.set(Some(Drag { needle, pointer: event.pointer_id(), at, x, was }));
        self.focus(needle);
        event.prevent_default();
    }

    fn pull(&self, event: &PointerEvent) {
        let Some(mut drag) = self.drag.get_untracked().filter(|drag| drag.pointer == event.pointer_id())
        else {
            return;
        };
        let Some((scale, _)) = on_scale(event) else { return };
        let bounds = scale.get_bounding_client_rect();
        let y = f64::from(event.client_y());
        let away = (bounds.top() - y).max(y - bounds.bottom()).max(0.0);
        let slower = 1.0 + away / 40.0;
        let x = f64::from(event.client_x());
        drag.at = (drag.at + (x - drag.x) / bounds.width() / slower).clamp(0.0, 1.0);
        drag.x = x;
        self.drag.set(Some(drag));
        let limit = self.needle(drag.needle).limit;
        self.set(drag.needle, tidy(&limit, limit.step, value_at(&self.rule.scale(), drag.at)));
    }

    fn let_go(&self) {
        if self.drag.with_untracked(Option::is_some) {
            self.drag.set(None);
            self.bench.history.drag(false);
        }
    }

    fn put_back(&self) {
        if let Some(drag) = self.drag.get_untracked() {
            self.set(drag.needle, drag.was);
        }
        self.let_go();
    }
}

/// The scale an event happened on, and where on it, 0 to 1.
fn on_scale(event: &PointerEvent) -> Option<(Element, f64)> {
    let scale = event.current_target()?.dyn_into::<Element>().ok()?;
    let bounds = scale.get_bounding_client_rect();
    let share = (f64::from(event.client_x()) - bounds.left()) / bounds.width().max(1.0);
    Some((scale, share))
}

/// A rule for one place of the recipe.
pub fn rule(bench: Bench, rule: &'static Rule, place: Place) -> AnyView {
    let hold = Hold {
        bench,
        rule,
        place,
        typing: RwSignal::new(None),
        refused: RwSignal::new(false),
        drag: RwSignal::new(None),
        needles: Default::default(),
    };
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
