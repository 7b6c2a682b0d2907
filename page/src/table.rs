//! The table: the piece large, its stages on their spine, the light and the seed.

use super::choice::table_word;
use super::hand::{Ask, Brought, Frame, Hand};
use super::state::{Bench, STRAIGHT, Slip};
use super::{canvas, files, glass, slips, words};
use dappledome::base::seed::Seed;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsValue;
use web_sys::HtmlCanvasElement;

/// The canvases that the hand draws on.
#[derive(Clone, Copy, Default)]
pub struct Frames {
    /// The large one.
    pub glass: NodeRef<html::Canvas>,
    /// One for each stage.
    pub thumbnails: [NodeRef<html::Canvas>; 3],
    /// One for each other demo recipe on the welcome slip.
    pub demos: [NodeRef<html::Canvas>; 4],
}

/// Side of a stage's thumbnail and of a demo's, pixels: twice their size on the page, for fine screens.
const SMALL: u32 = 168;

/// What the thumbnails show, so that they are not drawn again for a turn of the piece.
#[derive(PartialEq)]
struct Shown(Recipe, Seed, Light);

/// The table and everything on it.
pub fn table(bench: Bench, module: JsValue, url: String) -> AnyView {
    let frames = Frames::default();
    let hand = draw(bench, frames, module, url);
    view! {
        <section
            class="table"
            class:with-slip=move || bench.slip.with(|slip| *slip != Slip::None)
            id="piece"
            aria-label=words::PIECE
            tabindex="-1"
        >
            {glass::glass(bench, frames.glass)}
            {top_line(bench)}
            {spine(bench, frames)}
            {bottom_line(bench)}
            {slips::slips(bench, frames, move || again(bench, hand))}
        </section>
    }
    .into_any()
}

/// Hires the drawing hand and keeps it asked for what the page shows.
fn draw(bench: Bench, frames: Frames, module: JsValue, url: String) -> StoredValue<Hand, LocalStorage> {
    let shown: StoredValue<Option<Shown>, LocalStorage> = StoredValue::new_local(None);
    let bring = move |brought| match brought {
        Brought::Picture(frame, side, pixels) => {
            if let Some(place) = place(frames, frame) {
                canvas::show(&place, side, &pixels);
            }
        }
        Brought::Ticket(ticket) => bench.ticket.set(Some(*ticket)),
        Brought::AllOf(ask) => {
            let thumbnails = |(frame, _): &(Frame, View)| matches!(frame, Frame::Thumbnail(_));
            if ask.pictures.iter().any(thumbnails) {
                let light = ask.pictures[0].1.light;
                shown.set_value(Some(Shown(ask.recipe, ask.seed, light)));
                say_at_rest(bench);
            }
        }
        Brought::Stopped => bench.slip.set(Slip::Stopped),
    };
    let hand = StoredValue::new_local(Hand::new(module, url, Rc::new(bring)));
    Effect::new(move || {
        let Some(pixels) = bench.pixels.get() else { return };
        let board = bench.board.get();
        if !board.works {
            return;
        }
        let (seed, light) = (bench.seed.get(), bench.light.get());
        let recipe = board.made.0.clone();
        let known = shown.with_value(|shown| {
            shown.as_ref().is_some_and(|shown| *shown == Shown(recipe.clone(), seed, light))
        });
        let pictures = pictures(bench, light, pixels, known);
        hand.with_value(|hand| hand.ask(Ask { recipe, seed, pictures, ticket: !known }));
    });
    ask_for_demos(bench, hand);
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

/// The pictures of a view: a draft, the thumbnails unless they are known, and the fine picture.
fn pictures(bench: Bench, light: Light, pixels: u32, known: bool) -> Vec<(Frame, View)> {
    let (stage, eye) = (bench.stage.get(), bench.eye.get());
    let draft = View {
        stage,
        light,
        size: (pixels / 2).max(64),
        cells: View::DRAFT_CELLS,
        turn: eye.turn,
        tilt: eye.tilt,
        zoom: eye.zoom,
    };
    let fine = View { size: pixels, cells: View::FINE_CELLS, ..draft };
    let mut pictures = vec![(Frame::Glass, draft)];
    if !known {
        pictures.extend(words::ALL_STAGES.map(|stage| (Frame::Thumbnail(stage), small(stage, light))));
    }
    pictures.push((Frame::Glass, fine));
    pictures
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
        let pictures = vec![(Frame::Demo(at), small(Stage::Fused, Light::Day))];
        let recipe = bench.demos.with_value(|demos| demos[at].clone());
        let ask = Ask { recipe, seed: super::state::FIRST_SEED, pictures, ticket: false };
        hand.with_value(|hand| hand.ask_some_time(ask));
    }
}

/// Asks for the same once more.
fn again(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    bench.slip.set(Slip::None);
    let (made, light) = (bench.board.with_untracked(|board| board.made.clone()), bench.light.get_untracked());
    if let Some(pixels) = bench.pixels.get_untracked() {
        let pictures = untrack(|| pictures(bench, light, pixels, false));
        let ask = Ask { recipe: made.0.clone(), seed: bench.seed.get_untracked(), pictures, ticket: true };
        hand.with_value(|hand| hand.ask(ask));
    }
}

fn place(frames: Frames, frame: Frame) -> Option<HtmlCanvasElement> {
    match frame {
        Frame::Glass => frames.glass.get_untracked(),
        Frame::Thumbnail(stage) => frames.thumbnails[stage as usize].get_untracked(),
        Frame::Demo(at) => frames.demos[at - 1].get_untracked(),
    }
}

fn say_at_rest(bench: Bench) {
    let remarks = untrack(|| super::notices::pressing(bench).len());
    let said = bench.ticket.with_untracked(|ticket| {
        ticket.as_ref().map_or_else(String::new, |ticket| words::at_rest(ticket, remarks))
    });
    bench.said.set(said);
}

fn top_line(bench: Bench) -> AnyView {
    let names = bench.history.names;
    let undo = move || names.with(|(back, _)| back.is_some());
    let redo = move || names.with(|(_, ahead)| ahead.is_some());
    view! {
        <div class="top-line">
            <Show when=undo>
                <button class="table-word" on:click=move |_| bench.step_back(false)>
                    {words::UNDO}
                    <span class="wide-only">
                        {move || names.with(|(back, _)| words::after(back.as_ref()))}
                    </span>
                </button>
            </Show>
            <Show when=redo>{table_word(words::REDO, move || bench.step_back(true))}</Show>
            <span class="gap"></span>
            {files::open_and_save(bench)}
        </div>
    }
    .into_any()
}

fn spine(bench: Bench, frames: Frames) -> AnyView {
    let stages = words::ALL_STAGES
        .map(|stage| {
            let chosen = move || bench.stage.get() == stage;
            let joint = (stage != Stage::Domed).then(|| {
                view! { <li class="joint" aria-hidden="true"><span>{words::joint(stage)}</span></li> }
            });
            view! {
                <li class="stage">
                    <button
                        aria-pressed=move || chosen().to_string()
                        on:click=move |_| bench.stage.set(stage)
                    >
                        <span class="round">
                            <canvas node_ref=frames.thumbnails[stage as usize] aria-hidden="true"></canvas>
                        </span>
                        <span class="stage-name">{words::stage(stage)}</span>
                    </button>
                </li>
                {joint}
            }
            .into_any()
        })
        .into_iter()
        .collect_view();
    view! { <nav class="spine" aria-label=words::STAGES><ol>{stages}</ol></nav> }.into_any()
}

fn bottom_line(bench: Bench) -> AnyView {
    let lights = words::ALL_LIGHTS
        .map(|light| {
            view! {
                <button
                    class="table-word"
                    aria-pressed=move || (bench.light.get() == light).to_string()
                    on:click=move |_| bench.light.set(light)
                >
                    {words::light(light)}
                </button>
            }
            .into_any()
        })
        .into_iter()
        .collect_view();
    view! {
        <div class="bottom-line">
            <div class="lights" role="group" aria-label=words::LIGHT>{lights}</div>
            <button class="table-word next-light" on:click=move |_| next_light(bench)>
                {move || words::light(bench.light.get())}
            </button>
            {seed(bench)}
        </div>
    }
    .into_any()
}

fn seed(bench: Bench) -> AnyView {
    let take = move |text: String, back: &dyn Fn(String)| {
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        match digits.parse() {
            Ok(number) => bench.sow(Seed(number)),
            Err(_) => back(bench.seed.get_untracked().to_string()),
        }
    };
    let roll = move || bench.sow(Seed((js_sys::Math::random() * 10_000.0) as u32));
    view! {
        <div class="seed" role="group" aria-label=words::SEED>
            <button class="table-word" aria-label=words::PREVIOUS on:click=move |_| next(bench, -1)>
                {move || format!("‹ {}", bench.seed.get().0.wrapping_sub(1))}
            </button>
            <label class="seed-now">
                <b class="seed-word">{words::SEED}</b>
                <input
                    class="seed-number"
                    type="text"
                    inputmode="numeric"
                    autocomplete="off"
                    maxlength="10"
                    size=move || bench.seed.get().to_string().len().max(2)
                    prop:value=move || bench.seed.get().to_string()
                    on:change:target=move |event| {
                        let field = event.target();
                        take(field.value(), &|text| field.set_value(&text));
                    }
                />
            </label>
            <button class="table-word" aria-label=words::NEXT on:click=move |_| next(bench, 1)>
                {move || format!("{} ›", bench.seed.get().0.wrapping_add(1))}
            </button>
            {table_word(words::ROLL, roll)}
        </div>
    }
    .into_any()
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
