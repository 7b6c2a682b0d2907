//! A list of domes in staggered rows: one stop for the Tab key, arrows from one to the next.

use super::Shelf;
use crate::dom::{El, el, focus};
use crate::state::PieceId;
use crate::words;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, FocusEvent, HtmlElement, KeyboardEvent, MouseEvent};

/// Where an item says which piece it is.
pub const ID: &str = "data-id";
/// Where a word under an item says what it does.
pub const DOES: &str = "data-does";

/// The list.
#[derive(Clone, Copy)]
pub struct Grid {
    list: StoredValue<El, LocalStorage>,
}

/// An empty list with this name. It hears for all of its items.
pub fn grid(shelf: Shelf, name: &str) -> Grid {
    let list = el("ul", "pieces")
        .is("role", "list")
        .is("aria-label", name)
        .is("aria-description", words::SHELF_KEYS)
        .on("click", move |event: &MouseEvent| pressed(shelf, event));
    let grid = Grid { list: StoredValue::new_local(list.clone()) };
    // The list keeps what it hears with for as long as it is there.
    let _heard = list.on("keydown", move |event: &KeyboardEvent| grid.key(shelf, event)).on(
        "focusin",
        move |event: &FocusEvent| {
            if let Some(item) = event.target().and_then(|target| item_of(&target)) {
                grid.stop_at(&item);
            }
        },
    );
    grid
}

impl Grid {
    /// The list itself.
    pub fn list(self) -> El {
        self.list.get_value()
    }

    /// The item of a piece.
    pub fn item(self, id: PieceId) -> Option<Element> {
        let list = self.list.try_get_value()?;
        list.element().query_selector(&format!("[{ID}='{}']", id.0)).ok().flatten()
    }

    fn items(self) -> Vec<Element> {
        let children = self.list().element().children();
        (0..children.length()).filter_map(|at| children.item(at)).collect()
    }

    /// Sees to it that exactly one item can be reached by Tab: the one of this piece, or the one it was, or the first.
    pub fn mend_tab_stop(self, wanted: Option<PieceId>) {
        let Some(list) = self.list.try_get_value() else { return };
        let find = |selector: &str| list.element().query_selector(selector).ok().flatten();
        let wanted = wanted.and_then(|id| find(&format!("[{ID}='{}']", id.0)));
        let item = wanted.or_else(|| find("li:has(> [tabindex='0'])")).or_else(|| find("li"));
        if let Some(item) = item {
            self.stop_at(&item);
        }
    }

    /// Puts the focus on the item that Tab reaches.
    pub fn focus(self) {
        let Some(list) = self.list.try_get_value() else { return };
        focus(list.element().query_selector("[tabindex='0']").ok().flatten().as_ref());
    }

    fn stop_at(self, item: &Element) {
        let Ok(stops) = self.list().element().query_selector_all(".dome[tabindex='0']") else { return };
        for at in 0..stops.length() {
            if let Some(stop) = stops.item(at).and_then(|stop| stop.dyn_into::<Element>().ok()) {
                crate::dom::set(&stop, "tabindex", Some("-1"));
            }
        }
        if let Some(dome) = dome_of(item) {
            crate::dom::set(&dome, "tabindex", Some("0"));
        }
    }

    fn key(self, shelf: Shelf, event: &KeyboardEvent) {
        let Some(item) = event.target().and_then(|target| item_of(&target)) else { return };
        let items = self.items();
        let Some(at) = items.iter().position(|other| *other == item) else { return };
        let last = items.len() - 1;
        let top = |item: &Element| item.unchecked_ref::<HtmlElement>().offset_top();
        // As many as stand in the first row.
        let row = items.iter().take_while(|other| top(other) == top(&items[0])).count().max(1);
        let to = match event.key().as_str() {
            "ArrowRight" => (at + 1).min(last),
            "ArrowLeft" => at.saturating_sub(1),
            "ArrowDown" => (at + row).min(last),
            "ArrowUp" => at.checked_sub(row).unwrap_or(at),
            "Home" => 0,
            "End" => {
                // The end of all there are: those that are not on the page yet come first.
                shelf.shown.set(usize::MAX);
                request_animation_frame(move || focus(self.items().last().and_then(dome_of).as_ref()));
                last
            }
            "Delete" => {
                if let Some(id) = id_of(&item).filter(|_| !item.class_list().contains("damaged")) {
                    shelf.take_away(id);
                }
                return;
            }
            _ => return,
        };
        focus(dome_of(&items[to]).as_ref());
        event.prevent_default();
    }
}

/// A press on the dome takes the piece up; one on a word under it does what the word says.
fn pressed(shelf: Shelf, event: &MouseEvent) {
    let Some(target) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
    let Some(id) = item_of(&target).as_ref().and_then(id_of) else { return };
    let does = target.closest(&format!("[{DOES}]")).ok().flatten().and_then(|word| word.get_attribute(DOES));
    match does.as_deref() {
        Some(words::COPY) => shelf.copy(id),
        Some(words::TAKE_AWAY) => shelf.take_away(id),
        Some(words::SAVE_WHAT_IS_THERE) => shelf.save_what_is_there(id),
        _ if target.closest(".dome").is_ok_and(|dome| dome.is_some()) => shelf.take_up(id),
        _ => {}
    }
}

fn item_of(target: &web_sys::EventTarget) -> Option<Element> {
    target.dyn_ref::<Element>()?.closest("li").ok().flatten()
}

fn dome_of(item: &Element) -> Option<Element> {
    item.query_selector(".dome").ok().flatten()
}

fn id_of(item: &Element) -> Option<PieceId> {
    item.get_attribute(ID)?.parse().ok().map(PieceId)
}
