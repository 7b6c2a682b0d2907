//! The page: a recipe, its margin, and the glass. Only in the browser.
//!
//! Its floors, each using only what stands before it: plain data (`model`), the browser (`dom`), the words (`words`), the
//! recipe's numbers (`fields`), contexts (`state`), what works behind (`services`), what areas are built of
//! (`controls`), the areas (`areas`) and the page as a whole (`app`).

mod app;
mod areas;
mod controls;
mod dom;
mod fields;
mod model;
mod services;
mod state;
mod words;
mod worker;

pub use worker::start_worker;

use leptos::prelude::*;
use services::render::program::Program;
use wasm_bindgen::prelude::*;

/// Opens the page. `module` is the compiled program, to be shared with workers that run the script at `worker_url`.
#[wasm_bindgen]
pub fn start_page(module: JsValue, worker_url: String) {
    std::panic::set_hook(Box::new(|panic| leptos::logging::error!("{panic}")));
    let program = Program { module, worker_url };
    leptos::mount::mount_to_body(move || view! { <app::App program /> });
}
