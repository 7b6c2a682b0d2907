//! The large picture: turned by drag and by keys, brought nearer by the wheel, with its dimension line.

use super::dom::{El, always, el, memo, on_window};
use super::state::{Bench, Slip};
use super::{by_hand, core_sample, table, touch, words};
use by_hand::ByHand;
use dappledome::base::scalar::{Bounds, sin_cos, tan};
use dappledome::base::units::fixed;
use dappledome::picture::cast::{AIM, DISTANCE, FIELD};
use dappledome::picture::flat::DISC_SHARE;
use dappledome::picture::view::Stage;
use leptos::prelude::*;
use web_sys::{Event, HtmlCanvasElement, KeyboardEvent, PointerEvent, WheelEvent};

/// Most pixels along a side that a fine picture is asked with.
const MOST_PIXELS: f64 = 1024.0;

/// The picture and what is written under it.
pub fn glass(bench: Bench, canvas: &El) -> El {
    measure(bench, canvas.cast());
    let touch = StoredValue::new(touch::Touch::default());
    let hand = ByHand::new(bench);
    let label = move || {
        bench.recipe.with(|recipe| words::picture(&recipe.title, bench.stage.get(), bench.light.get()))
    };
    let glass = el("div", "glass")
        .is("role", "application")
        .is("aria-roledescription", words::GLASS_ROLE)
        .is("aria-describedby", "twin keys")
        .is("tabindex", "0")
        .live("aria-label", label)
        .on("keydown", move |event: &KeyboardEvent| key(bench, hand, event))
        .on("wheel", move |event: &WheelEvent| wheel(bench, event))
        .on("pointerdown", move |event: &PointerEvent| {
            touch::down(bench, touch, event);
            if !touch::on_ring(touch) {
                hand.down(event);
            }
        })
        .on("pointermove", move |event: &PointerEvent| {
            if !hand.pulled(event) {
                touch::moved(bench, touch, event);
            }
        })
        .on("pointerup", move |event: &PointerEvent| {
            if hand.lifted(event) {
                touch::gone(touch, event);
            } else {
                touch::up(bench, touch, event);
            }
        })
        .on("pointercancel", move |event: &PointerEvent| {
            hand.let_go();
            touch::gone(touch, event);
        })
        .class_when("laying", move || hand.laying.get().is_some())
        .with(canvas.clone())
        .with(by_hand::marks(hand))
        .with(by_hand::handles(hand))
        .with(by_hand::ring(hand))
        .when(move || bench.slip.with(|slip| *slip == Slip::Sample), move || core_sample::ring(bench));
    el("div", "glass-place")
        .with(glass)
        .with(by_hand::line(hand))
        .with(dimensions(bench, hand))
        .with(twin(bench))
}

/// Keeps the picture as fine as its place on the screen is.
fn measure(bench: Bench, canvas: HtmlCanvasElement) {
    let look = move || {
        let side = f64::from(canvas.offset_width()) * window().device_pixel_ratio();
        if side >= 1.0 {
            let pixels = side.min(MOST_PIXELS).round() as u32;
            if bench.pixels.get_untracked() != Some(pixels) {
                bench.pixels.set(Some(pixels));
            }
        }
    };
    let on_resize = look.clone();
    on_window("resize", move |_: &Event| on_resize());
    // A slip makes the picture smaller while it lies there, the more so with words under the disc, and a flat disc
    // takes another place than a dome. Where it is then is known in the next frame.
    always(move || {
        bench.slip.track();
        bench.open.track();
        bench.stage.track();
        request_animation_frame(look.clone());
    });
}

fn wheel(bench: Bench, event: &WheelEvent) {
    event.prevent_default();
    let lines = if event.delta_mode() == 0 { event.delta_y() / 100.0 } else { event.delta_y() / 3.0 };
    let factor = (1.0 - lines.between(-2.0, 2.0) * 0.12) as f32;
    bench.eye.update(|eye| *eye = eye.nearer(factor));
}

fn key(bench: Bench, hand: ByHand, event: &KeyboardEvent) {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    if hand.key(event) {
        event.stop_propagation();
        return event.prevent_default();
    }
    if core_sample::key(bench, event) {
        return event.prevent_default();
    }
    let by = if event.shift_key() { 1.0 } else { 5.0 };
    let eye = |turn: f32, tilt: f32| bench.eye.update(|eye| *eye = eye.turned(turn, tilt));
    match event.key().as_str() {
        "ArrowLeft" => eye(-by, 0.0),
        "ArrowRight" => eye(by, 0.0),
        "ArrowUp" => eye(0.0, -by),
        "ArrowDown" => eye(0.0, by),
        "+" | "=" => bench.eye.update(|eye| *eye = eye.nearer(1.15)),
        "-" => bench.eye.update(|eye| *eye = eye.nearer(1.0 / 1.15)),
        "0" => table::straighten(bench),
        "PageUp" => table::next(bench, 1),
        "PageDown" => table::next(bench, -1),
        "1" => bench.stage.set(Stage::Sifted),
        "2" => bench.stage.set(Stage::Fused),
        "3" => bench.stage.set(Stage::Domed),
        " " => table::next_light(bench),
        _ => return,
    }
    event.prevent_default();
}

/// Height of a dome in radii before the real one is known.
const USUAL_HEIGHT: f32 = 0.57;

/// How far below the middle of the picture the near rim of a dome is seen, as a share of the picture's side: what
/// the renderer's camera gives for the lowest point of the rim of a dome `high` radii high.
fn rim_below(tilt: f32, high: f32) -> f32 {
    let (sin, cos) = sin_cos(f64::from(tilt).to_radians());
    let (sin, cos) = (sin as f32, cos as f32);
    let aim = AIM * high;
    let depth = DISTANCE - cos + aim * sin;
    0.5 * (sin + aim * cos) / (depth * tan((FIELD / 2.0).to_radians()) as f32)
}

/// The size under the rim, and the caution under it.
fn dimensions(bench: Bench, hand: ByHand) -> El {
    let said = move || {
        let stage = bench.stage.get();
        bench
            .ticket
            .with(|ticket| ticket.as_ref().map(|ticket| bench.shown(&words::dimensions(stage, ticket))))
    };
    let under = move || {
        let flat = bench.stage.get() != Stage::Domed;
        let high = bench.ticket.with(|ticket| {
            ticket.as_ref().map_or(USUAL_HEIGHT, |t| (2.0 * t.dome_high.0 / t.dome_across.0.max(1.0)) as f32)
        });
        let share = if flat { DISC_SHARE / 2.0 } else { rim_below(bench.eye.get().tilt, high) };
        fixed(share, 3)
    };
    let line = el("p", "dimension-line")
        .class_when("hidden", move || said().is_none())
        .with(el("span", "end"))
        .with(el("span", "").reads(move || said().unwrap_or_default()))
        .with(el("span", "end"));
    let caution = move || {
        let works = bench.board.with(|board| board.works);
        if works { words::FORECAST.into() } else { words::AS_IT_LAST_WORKED.into() }
    };
    el("div", "dimensions")
        .class_when("under-hand-line", move || hand.has_line())
        .class_when("flat-size", move || bench.stage.get() != Stage::Domed)
        .class_when("near", move || (bench.eye.get().zoom - 1.0).abs() > 0.01)
        .style("--under", under)
        .with(line)
        .with(el("p", "forecast").with(el("span", "").reads(caution)))
}

/// The picture in words, for those who do not see it.
fn twin(bench: Bench) -> El {
    let coats = memo(move || {
        bench.recipe.with(|recipe| {
            let mut lines = vec![words::blank(recipe)];
            lines.extend(recipe.coats.iter().map(words::coat_line));
            lines
        })
    });
    let lines = move || coats.get().iter().map(|line| el("li", "").says(&bench.shown(line))).collect();
    el("div", "unseen")
        .with(el("ul", "").is("id", "twin").holds(lines))
        .with(el("p", "").is("id", "keys").says(words::GLASS_KEYS))
}
