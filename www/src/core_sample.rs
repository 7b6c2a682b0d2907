//! The core sample: a ring on the glass, and on a slip the layers under it as a small section.

use super::dom::{El, always, el};
use super::hand::{Ask, Hand, Want};
use super::share::slip_head;
use super::state::{Bench, Slip};
use super::words;
use dappledome::base::scalar::{Bounds, sin_cos};
use dappledome::base::units::fixed;
use dappledome::optics::sample::SampleLayer;
use dappledome::optics::test_tile::Color;
use dappledome::preview::{Point, Sampled};
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// Powder is drawn so many times as thick as sheets are.
const POWDER_SCALE: f64 = 40.0;
/// Height of a mm of powder in the section, rem: at forty times its thickness, a quarter of a millimeter is 2 rem.
const REM_PER_MM: f64 = 0.2 * POWDER_SCALE;

/// Takes a core sample at a point of the picture or the disc.
pub fn at(bench: Bench, point: Point) {
    bench.sampling.set(point);
    if bench.slip.with_untracked(|slip| *slip != Slip::Sample) {
        bench.sampled.set(None);
        bench.slip.set(Slip::Sample);
    }
}

/// Receives the core sample that was asked for at a point. From now on the ring stays where it is on the glass, however the
/// piece is turned; unless it was moved on meanwhile.
pub fn take(bench: Bench, asked: Point, sampled: Option<Sampled>) {
    match sampled {
        Some(sampled) => {
            if bench.sampling.get_untracked() == asked {
                bench.sampling.set(Point::Place(sampled.sample.x, sampled.sample.y));
            }
            if bench.sampled.with_untracked(|old| old.as_ref() != Some(&sampled)) {
                let said = words::sample_said(bench, &sampled.sample);
                bench.said.set(untrack(|| bench.shown(&said)));
                bench.sampled.set(Some(sampled));
            }
        }
        // A press beside the glass lays the slip aside.
        None if bench.sampled.with_untracked(Option::is_none) => bench.lay_slip_aside(),
        None => {}
    }
}

/// Asks for the sample anew whenever the point, the piece or the view changes.
pub fn keep_asking(bench: Bench, hand: StoredValue<Hand, LocalStorage>) {
    always(move || {
        if bench.slip.with(|slip| *slip != Slip::Sample) {
            return;
        }
        let Some(pixels) = bench.pixels.get() else { return };
        let view = bench.view(bench.light.get(), pixels);
        let (recipe, seed) = (bench.board.with(|board| board.made.0.clone()), bench.seed.get());
        let ask = Ask { recipe, seed, wanted: vec![Want::Sample(view, bench.sampling.get())] };
        hand.with_value(|hand| hand.ask_sample(ask));
    });
}

/// Moves the ring by keys while its slip lies there; whether the key was one of its own.
pub fn key(bench: Bench, event: &KeyboardEvent) -> bool {
    let here = bench.slip.with_untracked(|slip| *slip == Slip::Sample);
    if event.key() == "Enter" {
        if here {
            bench.lay_slip_aside();
        } else {
            at(bench, Point::Place(0.0, 0.0));
        }
        return true;
    }
    let by = if event.shift_key() { 0.2 } else { 1.0 };
    let (dx, dy) = match event.key().as_str() {
        "ArrowLeft" => (-by, 0.0),
        "ArrowRight" => (by, 0.0),
        "ArrowUp" => (0.0, by),
        "ArrowDown" => (0.0, -by),
        _ => return false,
    };
    if here && let Point::Place(x, y) = bench.sampling.get_untracked() {
        // As it is seen: the piece may be turned.
        let turn = f64::from(bench.eye.get_untracked().turn).to_radians();
        let (sin, cos) = sin_cos(turn);
        let (sin, cos) = (sin as f32, cos as f32);
        let (x, y) = (x + cos * dx + sin * dy, y + cos * dy - sin * dx);
        let most = bench.board.with_untracked(|board| board.made.1.disc.radius()) - 0.1;
        let pull = (most / (x * x + y * y).sqrt().at_least(1e-6)).at_most(1.0);
        bench.sampling.set(Point::Place(x * pull, y * pull));
    }
    here
}

/// The ring on the glass.
pub fn ring(bench: Bench) -> El {
    let seen = move |of: fn(&Sampled) -> f32| {
        let share = bench.sampled.with(|sampled| sampled.as_ref().map_or(0.5, of));
        format!("{}%", fixed(share * 100.0, 3))
    };
    el("span", "sample-ring")
        .is("aria-hidden", "true")
        .class_when("hidden", move || bench.sampled.with(Option::is_none))
        .class_when("far-side", move || {
            bench.sampled.with(|sampled| sampled.as_ref().is_some_and(|sampled| !sampled.faces_the_eye))
        })
        .style("left", move || seen(|sampled| sampled.seen.0))
        .style("top", move || seen(|sampled| sampled.seen.1))
}

/// The slip.
pub fn slip(bench: Bench) -> El {
    let rows = move || {
        bench.sampled.with(|sampled| match sampled {
            Some(sampled) => vec![section(bench, sampled)],
            None => vec![el("p", "aside").says(words::TAKING_A_SAMPLE)],
        })
    };
    let head = move || {
        bench.sampled.with(|sampled| {
            sampled
                .as_ref()
                .map_or_else(String::new, |sampled| bench.shown(&words::sample_place(&sampled.sample)))
        })
    };
    let title = slip_head(bench, words::CORE_SAMPLE).with(el("span", "sample-place").reads(head));
    el("div", "slip sample").with(title).holds(rows)
}

fn section(bench: Bench, sampled: &Sampled) -> El {
    let cells = [words::FUSED, words::AS_SIFTED, words::ALONE, words::IN_PLACE];
    let heads = cells.map(|word| el("th", "").is("scope", "col").says(word));
    let head = el("tr", "").with(el("td", "")).with(el("td", "")).with_all(heads);
    let rows = sampled.sample.layers.iter().map(|layer| row(bench, layer));
    let table = el("table", "section").with(el("thead", "").with(head)).with(el("tbody", "").with_all(rows));
    el("div", "section-place").with(table).with(el("p", "aside").says(words::SECTION_SCALE))
}

fn row(bench: Bench, layer: &SampleLayer) -> El {
    let sheet = layer.sifted.is_none();
    let height = if sheet { 1.75 } else { (layer.fused.0 * REM_PER_MM).between(0.125, 4.0) };
    let band = el("span", if sheet { "band sheet-band" } else { "band" })
        .style("height", move || format!("{}rem", fixed(height, 3)))
        .style("background-color", color(layer.in_place));
    let number = |text: String| el("td", "sample-number").says(&bench.shown(&text));
    el("tr", "")
        .with(el("td", "band-cell").is("aria-hidden", "true").with(band))
        .with(el("th", "").is("scope", "row").says(&words::layer(bench, layer.what)))
        .with(number(words::thin(layer.fused)))
        .with(number(layer.sifted.map_or_else(|| words::UNKNOWN.into(), words::thin)))
        .with(el("td", "").with(dot(layer.alone)))
        .with(el("td", "").with(dot(layer.in_place)))
}

fn dot(of: Color) -> El {
    el("span", "sample-dot").is("aria-hidden", "true").style("background-color", color(of))
}

fn color([r, g, b]: Color) -> impl Fn() -> String {
    move || format!("rgb({r} {g} {b})")
}
