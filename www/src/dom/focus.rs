//! The focus, and who inherits it. When what has the focus leaves the page, the browser lets the focus fall back to the
//! start of the page; here it goes to the first thing to press in what came instead, or else near it.

use super::window::listen;
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{
    Element, FocusEvent, HtmlElement, MutationObserver, MutationObserverInit, MutationRecord, Node, NodeList,
};

/// What can be pressed.
const TO_PRESS: &str = "button, input, [tabindex='0']";
/// The places around, the nearest first, in which an heir is looked for. Of a grid only the cell pointed at can be pressed.
const AROUND: [&str; 3] = ["li", "[role='grid']", "section"];

/// Gives an element the focus, if it can have it.
pub fn focus(element: Option<&Element>) {
    if let Some(element) = element.and_then(|element| element.dyn_ref::<HtmlElement>()) {
        // What cannot be focused leaves the focus where it is.
        let _ = element.focus();
    }
}

/// Gives the element with this id the focus.
pub fn focus_id(id: &str) {
    focus(document().get_element_by_id(id).as_ref());
}

/// Presses the first button in the element with this id.
pub fn press_in(id: &str) {
    let button =
        document().get_element_by_id(id).and_then(|around| around.query_selector("button").ok().flatten());
    if let Some(button) = button.and_then(|button| button.dyn_into::<HtmlElement>().ok()) {
        button.click();
    }
}

/// Brings the element with this id into sight and gives it the focus.
pub fn bring(id: &str) {
    if let Some(element) = document().get_element_by_id(id) {
        element.scroll_into_view();
        focus(Some(&element));
    }
}

/// Whether nothing on the page has the focus.
pub fn is_lost() -> bool {
    document().active_element().is_none_or(|active| active.tag_name() == "BODY")
}

/// Hands the focus on to the step or area around an element, because what has it there is going out of sight.
pub fn leave(around: &Element) {
    focus(near(around).as_ref());
}

/// Watches over the focus of the whole page for as long as its owner lives.
pub fn keep_focus() {
    let holder: Rc<RefCell<Option<Element>>> = Rc::default();
    let noted = Rc::clone(&holder);
    listen(leptos::ev::focusin, move |event: FocusEvent| {
        noted.replace(event.target().and_then(|target| target.dyn_into().ok()));
    });
    let changed = Closure::<dyn Fn(js_sys::Array)>::new(move |records: js_sys::Array| {
        let records: Vec<MutationRecord> = records.iter().map(JsCast::unchecked_into).collect();
        // Whoever gets the focus is noted at once, so nothing is held while it is given.
        let holder = holder.borrow().clone().filter(|_| is_lost());
        if let Some(holder) = holder {
            focus(heir(&holder, &records).as_ref());
        }
    });
    let Ok(observer) = MutationObserver::new(changed.as_ref().unchecked_ref()) else { return };
    let what = MutationObserverInit::new();
    what.set_child_list(true);
    what.set_subtree(true);
    if let Some(body) = document().body() {
        // Fails only without anything to observe.
        let _ = observer.observe_with_options(&body, &what);
    }
    let watch = StoredValue::new_local((observer, changed));
    on_cleanup(move || {
        let _ = watch.try_with_value(|(observer, _)| observer.disconnect());
    });
}

/// Who gets the focus of an element that these changes took off the page, or moved on it; nobody if they did not.
fn heir(holder: &Element, records: &[MutationRecord]) -> Option<Element> {
    let (record, gone) = removal(holder, records)?;
    if holder.is_connected() {
        return Some(holder.clone());
    }
    let place = record.target()?;
    let here = records.iter().filter(|other| other.target().is_some_and(|at| at.is_same_node(Some(&place))));
    let mut came = here.flat_map(|other| nodes(other.added_nodes())).filter(Node::is_connected);
    came.find_map(|node| first_to_press(node.dyn_ref()?))
        .or_else(|| first_to_press(&beside(record, gone.dyn_ref()?)?))
        .or_else(|| near(place.dyn_ref()?))
}

/// What took a node from a place that is still on the page: itself, or what it was in by then.
fn removal<'a>(node: &Node, records: &'a [MutationRecord]) -> Option<(&'a MutationRecord, Node)> {
    let (record, gone) = records.iter().find_map(|record| {
        let gone = nodes(record.removed_nodes()).find(|removed| removed.contains(Some(node)))?;
        Some((record, gone))
    })?;
    let place = record.target()?;
    if place.is_connected() { Some((record, gone)) } else { removal(&place, records) }
}

/// The next of the same list, or the last one.
fn beside(record: &MutationRecord, gone: &Element) -> Option<Element> {
    // The classes behind the first one say how an item stands, not what it is.
    let kind = |element: &Element| (element.tag_name(), element.class_list().item(0));
    let alike = |element: &Element| kind(element) == kind(gone);
    let after = std::iter::successors(record.next_sibling(), Node::next_sibling);
    let before = std::iter::successors(record.previous_sibling(), Node::previous_sibling);
    after.chain(before).filter(Node::is_connected).filter_map(|node| node.dyn_into().ok()).find(alike)
}

fn nodes(list: NodeList) -> impl Iterator<Item = Node> {
    (0..list.length()).filter_map(move |at| list.get(at))
}

fn near(around: &Element) -> Option<Element> {
    AROUND.iter().find_map(|area| first_to_press(&around.closest(area).ok().flatten()?))
}

fn first_to_press(place: &Element) -> Option<Element> {
    match place.matches(TO_PRESS) {
        Ok(true) => Some(place.clone()),
        _ => place.query_selector(TO_PRESS).ok().flatten(),
    }
}
