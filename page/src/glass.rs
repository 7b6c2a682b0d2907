//! The large picture: turned by drag and by keys, brought nearer by the wheel, with its dimension line.

use super::state::Bench;
use super::table;
use super::words;
use dappledome::base::scalar::{sin_cos, tan};
use dappledome::picture::cast::{AIM, DISTANCE, FIELD};
use dappledome::picture::flat::DISC_SHARE;
use dappledome::picture::view::Stage;
use leptos::ev::{KeyboardEvent, PointerEvent, WheelEvent};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlCanvasElement};

/// Degrees of turn for a drag across the whole picture.
const TURN_ACROSS: f32 = 240.0;

/// Most pixels along a side that a fine picture is asked with.
const MOST_PIXELS: f64 = 1024.0;

/// The picture and what is written under it.
pub fn glass(bench: Bench, canvas: NodeRef<html::Canvas>) -> AnyView {
    measure(bench, canvas);
    let dragged = RwSignal::new(None::<(i32, i32, i32)>);
    let title = Memo::new(move |_| bench.recipe.with(|recipe| recipe.title.clone()));
    let label = move || words::picture(&title.get(), bench.stage.get(), bench.light.get());
    view! {
        <div class="glass-place">
            <div
                class="glass"
                role="application"
                aria-roledescription=words::GLASS_ROLE
                aria-label=label
                aria-describedby="twin keys"
                tabindex="0"
                on:keydown=move |event| key(bench, &event)
                on:wheel=move |event| wheel(bench, &event)
                on:pointerdown=move |event: PointerEvent| {
                    if event.button() == 0 {
                        grip(&event);
                        dragged.set(Some((event.pointer_id(), event.client_x(), event.client_y())));
                    }
                }
                on:pointermove=move |event| drag(bench, dragged, &event)
                on:pointerup=move |_| dragged.set(None)
                on:pointercancel=move |_| dragged.set(None)
            >
                <canvas node_ref=canvas aria-hidden="true"></canvas>
            </div>
            {dimensions(bench)}
            {twin(bench)}
        </div>
    }
    .into_any()
}

/// Keeps the picture as fine as its place on the screen is.
fn measure(bench: Bench, canvas: NodeRef<html::Canvas>) {
    let look = move |canvas: &HtmlCanvasElement| {
        let side = f64::from(canvas.offset_width()) * window().device_pixel_ratio();
        if side >= 1.0 {
            let pixels = side.min(MOST_PIXELS).round() as u32;
            if bench.pixels.get_untracked() != Some(pixels) {
                bench.pixels.set(Some(pixels));
            }
        }
    };
    canvas.on_load(move |canvas| {
        // Laid out only after this frame's style is known.
        request_animation_frame(move || look(&canvas));
    });
    // A slip makes the picture smaller while it lies there, and a flat disc takes another place than a dome.
    Effect::new(move || {
        bench.slip.track();
        bench.stage.track();
        request_animation_frame(move || {
            if let Some(canvas) = canvas.get_untracked() {
                look(&canvas);
            }
        });
    });
    let resized = window_event_listener(leptos::ev::resize, move |_| {
        if let Some(canvas) = canvas.get_untracked() {
            look(&canvas);
        }
    });
    on_cleanup(move || resized.remove());
}

fn grip(event: &PointerEvent) {
    if let Some(place) = event.current_target().and_then(|place| place.dyn_into::<Element>().ok()) {
        // Without capture the drag ends at the picture's edge; nothing else is lost.
        let _ = place.set_pointer_capture(event.pointer_id());
    }
}

fn drag(bench: Bench, dragged: RwSignal<Option<(i32, i32, i32)>>, event: &PointerEvent) {
    let Some((pointer, x, y)) = dragged.get_untracked() else { return };
    if pointer != event.pointer_id() {
        return;
    }
    let (to_x, to_y) = (event.client_x(), event.client_y());
    let across = event
        .current_target()
        .and_then(|place| place.dyn_into::<Element>().ok())
        .map_or(600.0, |place| place.client_width().max(1) as f32);
    let degrees = TURN_ACROSS / across;
    let (turn, tilt) = ((to_x - x) as f32 * degrees, (to_y - y) as f32 * degrees * 0.5);
    if turn != 0.0 || tilt != 0.0 {
        dragged.set(Some((pointer, to_x, to_y)));
        bench.eye.update(|eye| *eye = eye.turned(turn, tilt));
    }
}

fn wheel(bench: Bench, event: &WheelEvent) {
    event.prevent_default();
    let lines = if event.delta_mode() == 0 { event.delta_y() / 100.0 } else { event.delta_y() / 3.0 };
    let factor = (1.0 - lines.clamp(-2.0, 2.0) * 0.12) as f32;
    bench.eye.update(|eye| *eye = eye.nearer(factor));
}

fn key(bench: Bench, event: &KeyboardEvent) {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
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
fn dimensions(bench: Bench) -> AnyView {
    let works = Memo::new(move |_| bench.board.with(|board| board.works));
    let said = Memo::new(move |_| {
        let stage = bench.stage.get();
        bench.ticket.with(|ticket| ticket.as_ref().map(|ticket| words::dimensions(stage, ticket)))
    });
    let class = move || match bench.stage.get() {
        _ if (bench.eye.get().zoom - 1.0).abs() > 0.01 => "dimensions near",
        Stage::Domed => "dimensions",
        Stage::Sifted | Stage::Fused => "dimensions flat",
    };
    let under = move || {
        let flat = bench.stage.get() != Stage::Domed;
        let high = bench.ticket.with(|ticket| {
            ticket.as_ref().map_or(USUAL_HEIGHT, |t| (2.0 * t.dome_high.0 / t.dome_across.0.max(1.0)) as f32)
        });
        let share = if flat { DISC_SHARE / 2.0 } else { rim_below(bench.eye.get().tilt, high) };
        format!("{share:.3}")
    };
    view! {
        <div class=class style:--under=under>
            <p class="dimension-line" class:hidden=move || said.get().is_none()>
                <span class="end"></span>
                <span>{move || said.get().unwrap_or_default()}</span>
                <span class="end"></span>
            </p>
            <p class="forecast">
                {move || if works.get() { words::FORECAST } else { words::AS_IT_LAST_WORKED }}
            </p>
        </div>
    }
    .into_any()
}

/// The picture in words, for those who do not see it.
fn twin(bench: Bench) -> AnyView {
    let coats = Memo::new(move |_| {
        bench.recipe.with(|recipe| {
            let line = |coat| words::coat_line(coat);
            let mut lines = vec![words::blank(recipe)];
            lines.extend(recipe.coats.iter().map(line));
            lines
        })
    });
    view! {
        <div class="unseen">
            <ul id="twin">
                {move || coats.get().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
            </ul>
            <p id="keys">{words::GLASS_KEYS}</p>
        </div>
    }
    .into_any()
}
