//! The table: the piece large, its stages on their spine, the light and the seed.

use super::choice::table_word;
use super::core_sample;
use super::dom::{El, always, el};
use super::hand::{Ask, Brought, Frame, Hand, Want};
use super::state::{Area, Bench, STRAIGHT, Slip};
use super::top_line::top_line;
use super::tray::{self, Tray};
use super::{canvas, glass, pictured, slips, words};
use dappledome::base::seed::Seed;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsValue;
use web_sys::{Event, HtmlCanvasElement, HtmlInputElement};

/// The canvases that the hand draws on.
#[derive(Clone)]
struct Frames {
    glass: El,
    /// One for each stage.
    thumbnails: [El; 3],
    /// One for each other demo recipe on the welcome slip.
    demos: [El; 4],
    /// One for each demo recipe on the shelf.
    starts: [El; 5],
}

impl Frames {
    fn new(starts: &[El; 5]) -> Self {
        let canvas = || el("canvas", "").is("aria-hidden", "true");
        Self {
            glass: canvas(),
            thumbnails: std::array::from_fn(|_| canvas()),
            demos: std::array::from_fn(|_| canvas()),
            starts: starts.clone(),
        }
    }

    fn canvas(&self, frame: Frame) -> Option<HtmlCanvasElement> {
        match frame {
            Frame::Glass => Some(self.glass.cast()),
            Frame::Thumbnail(stage) => Some(self.thumbnails[stage as usize].cast()),
            Frame::Demo(at) => Some(self.demos[at - 1].cast()),
            Frame::Start(at) => Some(self.starts[at].cast()),
            Frame::Kept(_) | Frame::Sister(_) | Frame::Lifted(_) | Frame::Option(..) | Frame::Ahead => None,
        }
    }
}

/// Side of a stage's thumbnail and of a demo's, pixels: twice their size on the page, for fine screens.
const SMALL: u32 = 168;

/// What the thumbnails show, so that they are not drawn again for a turn of the piece.
#[derive(PartialEq)]
struct Shown(Recipe, Seed, Light);

/// The table and everything on it. `starts` are the canvases of the demo recipes on the shelf.
pub fn table(bench: Bench, tray: Tray, starts: &[El; 5], module: JsValue, url: String) -> El {
    let frames = Frames::new(starts);
    let hand = draw(bench, frames.clone(), module, url);
    el("section", "table")
        .class_when("with-slip", move || bench.slip.with(|slip| *slip != Slip::None))
        .is("id", "piece")
        .is("aria-label", words::PIECE)
        .is("tabindex", "-1")
        .with(glass::glass(bench, &frames.glass))
        .with(top_line(bench))
        .with(spine(bench, &frames.thumbnails))
        .with(bottom_line(bench))
        .when(move || bench.area.get() == Area::Piece, move || tray::edge(tray))
        .with(slips::slips(bench, &frames.demos, move || again(bench, hand)))
}

/// Hires the drawing hand and keeps it asked for what the page shows.
fn draw(bench: Bench, frames: Frames, module: JsValue, url: String) -> StoredValue<Hand, LocalStorage> {
    let shown: StoredValue<Option<Shown>, LocalStorage> = StoredValue::new_local(None);
    let bring = move |brought| match brought {
        Brought::Picture(Frame::Kept(id), side, pixels) => pictured::brought(bench, id, side, &pixels),
        Brought::Picture(frame, side, pixels) => {
            if let Some(canvas) = frames.canvas(frame) {
                canvas::show(&canvas, side, &pixels);
            }
            if !bench.drawn.get_untracked() {
                bench.drawn.set(true);
            }
        }
        Brought::Ticket(ticket) => {
            // Until all of its job has come, nothing is known: a job given up after its ticket must be made good.
            shown.set_value(None);
            bench.ticket.set(Some(*ticket));
        }
        Brought::AllOf(ask) => {
            let thumbnail = ask.pictures().find(|(frame, _)| matches!(frame, Frame::Thumbnail(_)));
            if let Some((_, view)) = thumbnail {
                pictured::rested(bench, &ask.recipe, ask.seed, view.light);
                shown.set_value(Some(Shown(ask.recipe, ask.seed, view.light)));
                say_at_rest(bench);
            }
        }
        Brought::Sample(point, sampled) => core_sample::take(bench, point, sampled.map(|sampled| *sampled)),
        Brought::Features(..) => {}
        Brought::Stopped => bench.slip.set(Slip::Stopped),
    };
    let hand = StoredValue::new_local(Hand::new("piece", module, url, Rc::new(bring)));
    let last: StoredValue<Option<Ask>, LocalStorage> = StoredValue::new_local(None);
    always(move || {
        let Some(pixels) = bench.pixels.get() else { return };
        let (seed, light) = (bench.seed.get(), bench.light.get());
        // What cannot be made leaves the piece as it last was, to be looked at all the same.
        let recipe = bench.board.with(|board| board.made.0.clone());
        let known = shown.with_value(|shown| {
            shown.as_ref().is_some_and(|shown| *shown == Shown(recipe.clone(), seed, light))
        });
        let ask = Ask { recipe, seed, wanted: wanted(bench, light, pixels, known) };
        if last.with_value(|last| last.as_ref() != Some(&ask)) {
            last.set_value(Some(ask.clone()));
            hand.with_value(|hand| hand.ask(ask));
        }
    });
    core_sample::keep_asking(bench, hand);
    ask_for_demos(bench, hand);
    ask_for_starts(bench, hand);
    ask_for_wanted(bench, hand);
    // A failed interval costs only the watch over a worker that vanished without a word.
    let watch = set_interval_with_handle(
        move || {
            // The page may be going; then there is nothing to look after.
            let _ = hand.try_with_value(Hand::look_after);
        },
        Duration::from_secs(5),
    );
    if let Ok(watch) = watch {
        on_cleanup(move || watch.clear());
    }
    hand
}

/// What a view needs: a draft, the ticket and the thumbnails unless they are known, and the fine picture.
fn wanted(bench: Bench, light: Light, pixels: u32, known: bool) -> Vec<Want> {
    let fine = bench.view(light, pixels);
    let mut wanted = vec![Want::Picture(Frame::Glass, fine.quick())];
    if !known {
        wanted.push(Want::Ticket);
        let thumbnail = |stage| Want::Picture(Frame::Thumbnail(stage), small(stage, light));
        wanted.extend(words::ALL_STAGES.map(thumbnail));
    }
    wanted.push(Want::Picture(Frame::Glass, fine));
    wanted
}

fn small(stage: Stage, light: Light) -> View {
    View { cells: View::DRAFT_CELLS, ..View::usual(stage, light, SMALL) }
}

/// The other demo recipes, drawn when there is time: only while the welcome is on the table.
fn ask_for_demos(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    if bench.slip.get_untracked() != Slip::Welcome {
        return;
    }
    for at in words::OTHER_DEMOS {
        let wanted = vec![Want::Picture(Frame::Demo(at), small(Stage::Fused, Light::Day))];
        let recipe = bench.demos.with_value(|demos| demos[at].clone());
        let ask = Ask { recipe, seed: super::state::FIRST_SEED, wanted };
        hand.with_value(|hand| hand.ask_some_time(ask));
    }
}

/// All demo recipes, drawn when the shelf is looked at for the first time.
fn ask_for_starts(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    let asked = StoredValue::new(false);
    always(move || {
        if bench.area.get() != Area::Shelf || asked.get_value() {
            return;
        }
        asked.set_value(true);
        for (at, recipe) in bench.demos.get_value().into_iter().enumerate() {
            let wanted = vec![Want::Picture(Frame::Start(at), small(Stage::Domed, Light::Day))];
            let ask = Ask { recipe, seed: super::state::FIRST_SEED, wanted };
            hand.with_value(|hand| hand.ask_some_time(ask));
        }
    });
}

/// The pieces that the shelf has no picture of, each once.
fn ask_for_wanted(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    let asked = StoredValue::new(0);
    always(move || {
        bench.keep.wanted.with(|wanted| {
            for (id, recipe, seed) in &wanted[asked.get_value()..] {
                let wanted = vec![Want::Picture(Frame::Kept(*id), small(Stage::Domed, Light::Day))];
                let ask = Ask { recipe: recipe.clone(), seed: *seed, wanted };
                hand.with_value(|hand| hand.ask_some_time(ask));
            }
            asked.set_value(wanted.len());
        });
    });
}

/// Asks for the same once more.
fn again(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    bench.lay_slip_aside();
    let (made, light) = (bench.board.with_untracked(|board| board.made.clone()), bench.light.get_untracked());
    if let Some(pixels) = bench.pixels.get_untracked() {
        let wanted = untrack(|| wanted(bench, light, pixels, false));
        let ask = Ask { recipe: made.0.clone(), seed: bench.seed.get_untracked(), wanted };
        hand.with_value(|hand| hand.ask(ask));
    }
}

fn say_at_rest(bench: Bench) {
    let remarks = untrack(|| super::notices::pressing(bench).len());
    let said = bench.ticket.with_untracked(|ticket| {
        ticket.as_ref().map_or_else(String::new, |ticket| words::at_rest(ticket, remarks))
    });
    bench.said.set(untrack(|| bench.shown(&said)));
}

fn spine(bench: Bench, thumbnails: &[El; 3]) -> El {
    let mut list = el("ol", "");
    for (stage, canvas) in words::ALL_STAGES.into_iter().zip(thumbnails) {
        let button = el("button", "")
            .live_flag("aria-pressed", move || bench.stage.get() == stage)
            .press(move || bench.stage.set(stage))
            .with(el("span", "round").with(canvas.clone()))
            .with(el("span", "stage-name").says(words::stage(stage)));
        list = list.with(el("li", "stage").with(button));
        if stage != Stage::Domed {
            let name = el("span", "").says(words::joint(stage));
            list = list.with(el("li", "joint").is("aria-hidden", "true").with(name));
        }
    }
    el("nav", "spine").is("aria-label", words::STAGES).with(list)
}

fn bottom_line(bench: Bench) -> El {
    let lights = words::ALL_LIGHTS.map(|light| {
        table_word(words::light(light), move || bench.light.set(light))
            .live_flag("aria-pressed", move || bench.light.get() == light)
    });
    let lights = el("div", "lights").is("role", "group").is("aria-label", words::LIGHT).with_all(lights);
    let next = el("button", "table-word next-light")
        .press(move || next_light(bench))
        .reads(move || words::light(bench.light.get()).into());
    el("div", "bottom-line").with(lights).with(next).with(seed(bench))
}

fn seed(bench: Bench) -> El {
    let sister = move |name: &'static str, by: i32| {
        let number = move || words::sister(bench.seed.get().0.wrapping_add_signed(by), by);
        el("button", "table-word")
            .live("aria-label", move || words::named_sister(&number(), name))
            .press(move || next(bench, by))
            .reads(number)
    };
    let roll = move || bench.sow(Seed((js_sys::Math::random() * 10_000.0) as u32));
    let now = el("label", "seed-now").with(el("b", "seed-word").says(words::SEED)).with(seed_field(bench));
    el("div", "seed")
        .is("role", "group")
        .is("aria-label", words::SEED)
        .with(sister(words::PREVIOUS, -1))
        .with(now)
        .with(sister(words::NEXT, 1))
        .with(table_word(words::ROLL, roll))
}

fn seed_field(bench: Bench) -> El {
    let field = el("input", "seed-number")
        .is("aria-label", words::SEED)
        .is("type", "text")
        .is("inputmode", "numeric")
        .is("autocomplete", "off")
        .is("maxlength", "10")
        .live("size", move || bench.seed.get().to_string().len().max(2).to_string());
    let (shown, typed): (HtmlInputElement, HtmlInputElement) = (field.cast(), field.cast());
    always(move || shown.set_value(&bench.seed.get().to_string()));
    field.on("change", move |_: &Event| {
        let digits: String = typed.value().chars().filter(char::is_ascii_digit).collect();
        match digits.parse() {
            Ok(number) => bench.sow(Seed(number)),
            Err(_) => typed.set_value(&bench.seed.get_untracked().to_string()),
        }
    })
}

/// The next sister, or the one before.
pub fn next(bench: Bench, by: i32) {
    bench.sow(Seed(bench.seed.get_untracked().0.wrapping_add_signed(by)));
}

/// The light after this one.
pub fn next_light(bench: Bench) {
    let at = words::ALL_LIGHTS.iter().position(|light| *light == bench.light.get_untracked());
    bench.light.set(words::ALL_LIGHTS[(at.unwrap_or(0) + 1) % words::ALL_LIGHTS.len()]);
}

/// Puts the eye back where it was at first.
pub fn straighten(bench: Bench) {
    bench.eye.set(STRAIGHT);
}
