//! One piece on the shelf: its dome, its name and its day. Its picture and its words come when it comes into sight.

use super::Shelf;
use super::grid::{DOES, ID};
use crate::dom::{El, el, set};
use crate::pictured;
use crate::state::{Bench, PieceId};
use crate::store;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::recipe::piece::Piece;
use js_sys::{Array, Date, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::prelude::*;
use web_sys::{Blob, Element, IntersectionObserver, IntersectionObserverEntry, Url};

/// The button that an item is pressed by.
pub fn dome(title: &str) -> El {
    el("button", "dome").is("tabindex", "-1").is("title", words::named(title))
}

/// One piece, known by its number and the time of its last change.
pub fn item(shelf: Shelf, (id, _): (PieceId, u64)) -> El {
    let card = shelf.card(id);
    let title = card.as_ref().map(|card| card.title.clone()).unwrap_or_default();
    let day = card.map_or_else(String::new, |card| words::day(card.changed, Date::now()));
    let mut dome = dome(&title);
    if shelf.bench.id.get_untracked() == Some(id) {
        dome = dome.is("aria-current", "true");
    }
    let dome = dome
        .with(el("span", "round"))
        .with(el("b", "").says(words::named(&title)))
        .with(el("span", "day").says(&day));
    let item = el("li", "kept-piece").is(ID, &id.0.to_string()).with(dome);
    watch(shelf, item.element());
    item
}

/// Waits until something comes into sight.
pub fn watch(shelf: Shelf, element: &Element) {
    shelf.sight.with_value(|sight| {
        if let Some(sight) = sight {
            sight.observe(element);
        }
    });
}

/// Sees which items come into sight, and fills each then; and when the end of the list does, which is no item.
pub fn sight(bench: Bench, more: impl Fn() + 'static) -> Option<IntersectionObserver> {
    let seen = move |entries: Array, sight: IntersectionObserver| {
        for entry in entries.iter() {
            let entry: IntersectionObserverEntry = entry.unchecked_into();
            match (entry.is_intersecting(), entry.target().has_attribute(ID)) {
                (true, true) => {
                    sight.unobserve(&entry.target());
                    fill(bench, &entry.target());
                }
                (true, false) => more(),
                _ => {}
            }
        }
    };
    let seen = Closure::<dyn Fn(Array, IntersectionObserver)>::new(seen);
    IntersectionObserver::new(seen.into_js_value().unchecked_ref()).ok()
}

/// Reads a piece, shows its picture, and puts its words under it.
pub fn fill(bench: Bench, item: &Element) {
    let Some(id) = item.get_attribute(ID).and_then(|id| id.parse().ok()).map(PieceId) else { return };
    let item = item.clone();
    spawn_local(async move {
        let Ok((Some(stored), picture)) = store::look(id).await else { return };
        let piece = Piece::read(&stored.text, Seed::default());
        match (&piece, picture) {
            (_, Some(picture)) => show(&item, &picture),
            (Ok(piece), None) => pictured::want(bench, id, piece),
            (Err(_), None) => {}
        }
        let words = if piece.is_ok() {
            &[words::COPY, words::TAKE_AWAY][..]
        } else {
            say_damaged(&item);
            &[words::SAVE_WHAT_IS_THERE]
        };
        put_words(&item, words);
    });
}

fn part(item: &Element, selector: &str) -> Option<Element> {
    item.query_selector(selector).ok().flatten()
}

fn show(item: &Element, picture: &Uint8Array) {
    // The browser tells by the first bytes which format it is.
    let Ok(blob) = Blob::new_with_u8_array_sequence(&Array::of1(picture)) else { return };
    let Ok(address) = Url::create_object_url_with_blob(&blob) else { return };
    let image = el("img", "").is("alt", "").is("src", &address);
    let done = Closure::once_into_js(move || {
        // Once it is shown the browser needs its file no more.
        let _ = Url::revoke_object_url(&address);
    });
    image.element().set_onload(Some(done.unchecked_ref()));
    if let Some(round) = part(item, ".round") {
        round.replace_children_with_node_1(image.element());
    }
}

fn say_damaged(item: &Element) {
    // Its class name is well formed.
    let _ = item.class_list().add_1("damaged");
    if let Some(day) = part(item, ".day") {
        day.set_text_content(Some(words::DAMAGED));
    }
}

fn put_words(item: &Element, names: &[&str]) {
    if part(item, ".piece-words").is_some() {
        return;
    }
    let title = part(item, "b").and_then(|name| name.text_content()).unwrap_or_default();
    let words = names.iter().map(|name| {
        let word = el("button", "word").is(DOES, name).says(name);
        set(word.element(), "aria-label", Some(&words::done_to(name, &title)));
        word
    });
    // The item is there, and what is new goes to its end.
    let _ = item.append_child(el("div", "piece-words").with_all(words).element());
}
