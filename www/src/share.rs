//! Ways out and in: a link, the recipe file, the picture with the recipe inside, and files to open.

use super::backing;
use super::choice::{button, main_button};
use super::dom::{El, el};
use super::files;
use super::state::Bench;
use super::words;
use dappledome::recipe::{file, link};
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{HtmlCanvasElement, HtmlInputElement};

/// What came of the last thing done on the slip.
#[derive(Clone, PartialEq)]
enum Outcome {
    Nothing,
    Said(String),
    /// The link, to be copied by hand: the browser did not let us.
    Link(String),
}

/// The slip.
pub fn share(bench: Bench) -> El {
    let outcome = RwSignal::new(Outcome::Nothing);
    let buttons = el("div", "buttons")
        .with(main_button(words::COPY_LINK, move || copy_link(bench, outcome)))
        .with(button(words::SAVE_RECIPE, move || save_recipe(bench, outcome)))
        .with(button(words::SAVE_PICTURE, move || save_picture(bench, outcome)))
        .with(button(words::OPEN_FILE, files::choose))
        .with(button(words::BACK_UP_ALL, move || back_up(bench, outcome)))
        .with(button(words::BRING_BACK_UP, files::choose));
    let said = move || match outcome.get() {
        Outcome::Nothing => vec![el("p", "aside").says(words::SHARE_HELP)],
        Outcome::Said(words) => vec![el("p", "aside").is("role", "status").says(&words)],
        Outcome::Link(link) => vec![link_field(&link)],
    };
    el("div", "slip")
        .with(slip_head(bench, words::SHARE))
        .with(buttons)
        .with(el("div", "outcome").holds(said))
}

/// The head of a slip that is closed by a word.
pub fn slip_head(bench: Bench, title: &str) -> El {
    el("div", "slip-head")
        .with(el("b", "").says(title))
        .with(super::choice::word(words::CLOSE, move || bench.lay_slip_aside()))
}

fn copy_link(bench: Bench, outcome: RwSignal<Outcome>) {
    let location = window().location();
    let [origin, path] = [location.origin(), location.pathname()].map(Result::unwrap_or_default);
    let link = format!("{origin}{path}#{}", link::write(&bench.standing().piece));
    let copied = window().navigator().clipboard().write_text(&link);
    spawn_local(async move {
        let done = JsFuture::from(copied).await.is_ok();
        let now = if done { Outcome::Said(words::link_copied(link.len())) } else { Outcome::Link(link) };
        // The slip may have been closed meanwhile.
        let _ = outcome.try_set(now);
    });
}

fn link_field(link: &str) -> El {
    let field = el("input", "link-field")
        .is("type", "text")
        .is("readonly", "")
        .is("value", link)
        .is("aria-label", words::COPY_LINK);
    let input: HtmlInputElement = field.cast();
    queue_microtask(move || {
        // A field that cannot be focused can still be clicked.
        let _ = input.focus();
        input.select();
    });
    el("div", "").with(el("p", "aside").says(words::COPY_BY_HAND)).with(field)
}

fn save_recipe(bench: Bench, outcome: RwSignal<Outcome>) {
    let recipe = bench.recipe.get_untracked();
    let name = words::file_name(&recipe.title, "json");
    let saved = files::download_text(&name, "application/json", &file::write(&recipe));
    outcome.set(Outcome::Said(words::saved_as(&name, saved.is_ok())));
}

fn back_up(bench: Bench, outcome: RwSignal<Outcome>) {
    backing::back_up(bench, move |said| {
        // The slip may have been closed meanwhile.
        let _ = outcome.try_set(Outcome::Said(said));
    });
}

/// Saves the large picture as it is seen, with the piece inside.
fn save_picture(bench: Bench, outcome: RwSignal<Outcome>) {
    let found = document().query_selector(".glass canvas").ok().flatten();
    let Some(glass) = found.and_then(|found| found.dyn_into::<HtmlCanvasElement>().ok()) else { return };
    let standing = bench.standing();
    let (recipe, seed) = (file::write(&standing.piece.recipe), standing.piece.seed.to_string());
    let name = words::file_name(&standing.piece.recipe.title, "png");
    files::save_picture(&glass, name, (recipe, seed), move |words| {
        // The slip may have been closed meanwhile.
        let _ = outcome.try_set(Outcome::Said(words));
    });
}
