//! The page: a recipe, its margin, and the glass. Only in the browser.

mod backing;
mod bodies;
mod by_hand;
mod canvas;
mod choice;
mod coat_body;
mod core_sample;
mod customer;
mod dom;
mod drafts;
mod drawing_worker;
mod files;
mod finer;
mod glass;
mod hand;
mod history;
mod hold;
mod keeping;
mod notices;
mod paper;
mod parts;
mod pictured;
mod rule;
mod rules;
mod set_up;
mod share;
mod sheet;
mod shelf;
mod slips;
mod state;
mod step;
mod steps;
mod store;
mod table;
mod top_line;
mod touch;
mod tray;
mod words;

pub use drawing_worker::start_worker;

use dappledome::picture::view::{Light, Stage};
use dom::{El, el, focus, on_window};
use leptos::prelude::*;
use state::{Area, Bench, Slip};
use tray::Tray;
use wasm_bindgen::prelude::*;
use web_sys::{HtmlInputElement, KeyboardEvent};

/// Opens the page. `module` is the compiled program, to be shared with workers that run the script at `worker_url`.
#[wasm_bindgen]
pub fn start_page(module: JsValue, worker_url: String) {
    leptos::mount::mount_to_body(move || {
        let page = page(module, worker_url);
        // A page without a body would not have come here.
        let _ = document().body().map(|body| body.append_child(page.element()));
    });
}

fn page(module: JsValue, worker_url: String) -> El {
    let bench = Bench::new();
    let tray = Tray::new(bench, module.clone(), worker_url.clone());
    listen_for_undo(bench);
    listen_for_keys(bench);
    files::open_address(bench);
    keeping::begin(bench);
    set_up::keep_true(bench);
    let starts: [El; 5] = std::array::from_fn(|_| el("canvas", "").is("aria-hidden", "true"));
    let table = table::table(bench, tray, &starts, module, worker_url);
    let on_shelf = move || bench.area.get() == Area::Shelf;
    el("main", "page")
        .class_when("on-shelf", on_shelf)
        .class_when("lit", move || bench.light.get() == Light::Within)
        .class_when("flat", move || bench.stage.get() != Stage::Domed)
        .class_when("with-slip-below", move || bench.slip.with(|slip| *slip != Slip::None))
        .with(el("a", "skip").is("href", "#recipe").says(words::TO_RECIPE))
        .with(el("a", "skip").is("href", "#piece").says(words::TO_PIECE))
        .class_when("tray-open", move || bench.area.get() == Area::Tray)
        .with(sheet::sheet(bench, tray))
        .when(on_shelf, move || shelf::shelf(bench, &starts))
        .with(table)
        .when(move || bench.area.get() == Area::Tray, move || tray::tray(bench, tray))
        .when(move || bench.area.get() == Area::Paper, move || paper::paper(bench, tray))
        .when(move || bench.area.get() == Area::Customer, move || customer::customer(bench, tray))
        .with(el("p", "unseen").is("role", "status").reads(move || bench.said.get()))
}

/// Undo and redo by key, from anywhere but a field that has its own.
fn listen_for_undo(bench: Bench) {
    on_window("keydown", move |event: &KeyboardEvent| {
        let typing = event.target().is_some_and(|target| target.has_type::<HtmlInputElement>());
        if typing || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match event.key().as_str() {
            "z" | "Z" => bench.step_by(if event.shift_key() { 1 } else { -1 }),
            "y" => bench.step_by(1),
            _ => return,
        }
        event.prevent_default();
    });
}

/// Esc lays a slip aside or closes the open step; F2 goes from the recipe to the piece and back.
fn listen_for_keys(bench: Bench) {
    on_window("keydown", move |event: &KeyboardEvent| match event.key().as_str() {
        "Escape" => bench.close(),
        "F2" => {
            let focused = |id: &str| {
                document().query_selector(&format!("#{id}:focus-within")).is_ok_and(|found| found.is_some())
            };
            let there = if bench.area.get_untracked() == Area::Shelf { "shelf" } else { "piece" };
            go_to_area(if focused("recipe") { there } else { "recipe" });
            event.prevent_default();
        }
        _ => {}
    });
}

fn go_to_area(id: &str) {
    // Every area can be focused.
    focus(document().get_element_by_id(id).as_ref());
}
