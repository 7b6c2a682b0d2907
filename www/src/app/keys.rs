//! The keys that work anywhere.

use crate::dom::focus;
use crate::dom::window::listen as listen_to_window;
use crate::model::ids::{AreaId, PanelId};
use crate::state::nav::Nav;
use crate::state::orders::Orders;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use leptos::ev::{self, KeyboardEvent};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, HtmlTextAreaElement};

/// The id of the sheet.
pub const RECIPE: &str = "recipe";
/// The id of the table with the piece.
pub const PIECE: &str = "piece";
/// The id of the shelf, which hides the table.
const SHELF: &str = "shelf";

/// Hears them for as long as the present owner lives.
pub fn listen(piece: Workpiece, orders: Orders, nav: Nav, tray: Tray) {
    listen_to_window(ev::keydown, move |event| {
        if undo(piece, orders, nav, &event) || navigate(nav, tray, &event) {
            event.prevent_default();
        }
    });
}

/// Undo and redo of the piece, or of the order that lies open, from anywhere but a field that has its own; whether the key meant that.
fn undo(piece: Workpiece, orders: Orders, nav: Nav, event: &KeyboardEvent) -> bool {
    let typing = event.target().is_some_and(|target| {
        target.has_type::<HtmlInputElement>() || target.has_type::<HtmlTextAreaElement>()
    });
    if typing || !(event.ctrl_key() || event.meta_key()) {
        return false;
    }
    let by = match event.key().as_str() {
        "z" | "Z" if !event.shift_key() => -1,
        "z" | "Z" | "y" => 1,
        _ => return false,
    };
    if nav.area.get_untracked() == AreaId::ORDER {
        orders.step_by(by)
    } else {
        piece.step_by(by)
    }
    true
}

/// Esc lays back what is lifted, lays a panel aside or closes the open step; F2 goes from the recipe to the piece and
/// back. Whether the key is to do nothing else.
fn navigate(nav: Nav, tray: Tray, event: &KeyboardEvent) -> bool {
    match event.key().as_str() {
        "Escape" => {
            let lay_back = nav.area.get_untracked() == AreaId::TRAY
                && nav.panel.get_untracked().is_none_or(|panel| panel == PanelId::STOPPED);
            if !(lay_back && tray.lay_all_back()) {
                nav.close();
            }
            false
        }
        "F2" => {
            let there = if nav.area.get_untracked() == AreaId::SHELF { SHELF } else { PIECE };
            focus::focus_id(if has_focus(RECIPE) { there } else { RECIPE });
            true
        }
        _ => false,
    }
}

/// Whether the element with this id, or something in it, has the focus.
fn has_focus(id: &str) -> bool {
    let place = document().get_element_by_id(id).and_then(|place| place.dyn_into::<HtmlElement>().ok());
    place.is_some_and(|place| place.contains(document().active_element().as_deref()))
}
