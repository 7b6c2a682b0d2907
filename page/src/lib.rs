//! The page: a recipe, its margin, and the glass. Only in the browser.

mod bodies;
mod canvas;
mod choice;
mod coat_body;
mod drawing_worker;
mod files;
mod finer;
mod glass;
mod hand;
mod history;
mod hold;
mod notices;
mod parts;
mod rule;
mod rules;
mod sheet;
mod slips;
mod state;
mod step;
mod table;
mod words;

pub use drawing_worker::start_worker;

use dappledome::base::seed::Seed;
use dappledome::picture::view::{Light, Stage};
use dappledome::preview::Preview;
use dappledome::recipe::file;
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;
use state::{Bench, Slip};
use wasm_bindgen::prelude::*;

/// Opens the page. `module` is the compiled program, to be shared with workers that run the script at `worker_url`.
#[wasm_bindgen]
pub fn start_page(module: JsValue, worker_url: String) {
    leptos::mount::mount_to_body(move || page(module, worker_url));
}

/// The hash of one picture, for the tests that hold native and browser to the same pixels.
#[wasm_bindgen]
pub fn picture_hash(recipe: &str, seed: u32, view: &str) -> String {
    let hash = || -> Result<String, String> {
        let recipe = file::read(recipe).map_err(|fault| fault.to_string())?;
        let view = serde_json::from_str(view).map_err(|fault| fault.to_string())?;
        let planned = Plan::new(&recipe).map_err(|notices| format!("{} faults", notices.len()))?;
        let picture = Preview::new().picture(&planned.plan, Seed(seed), &view);
        Ok(format!("{:016x}", picture.hash()))
    };
    hash().unwrap_or_else(|fault| format!("fault: {fault}"))
}

fn page(module: JsValue, worker_url: String) -> AnyView {
    let bench = Bench::new();
    listen_for_undo(bench);
    let lit = move || bench.light.get() == Light::Within;
    let flat = move || bench.stage.get() != Stage::Domed;
    let slip = move || bench.slip.with(|slip| *slip != Slip::None);
    view! {
        <main class="page" class:lit=lit class:flat=flat class:with-slip-below=slip>
            <a class="skip" href="#recipe">{words::TO_RECIPE}</a>
            <a class="skip" href="#piece">{words::TO_PIECE}</a>
            {sheet::sheet(bench)}
            {table::table(bench, module, worker_url)}
            <p class="unseen" role="status">{move || bench.said.get()}</p>
        </main>
    }
    .into_any()
}

/// Undo and redo by key, from anywhere but a field that has its own.
fn listen_for_undo(bench: Bench) {
    let keys = window_event_listener(leptos::ev::keydown, move |event| {
        let typing =
            event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok()).is_some();
        if typing || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match event.key().as_str() {
            "z" | "Z" => bench.step_back(event.shift_key()),
            "y" => bench.step_back(true),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || keys.remove());
}
