//! The screen turned to the customer.

use super::choosing::Choosing;
use super::large::LargeGlass;
use super::others::Others;
use super::state::Showing;
use crate::areas::finished_size::finished_size;
use crate::controls::cautions::CautionsWord;
use crate::dom::focus::focus;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

/// The whole screen.
#[component]
pub fn CustomerArea() -> impl IntoView {
    let nav = expect_context::<Nav>();
    let showing = Showing::new(expect_context::<Workpiece>(), expect_context::<Announcer>());
    let screen = NodeRef::<html::Section>::new();
    screen.on_load(|screen| focus(Some(&screen)));
    let pressed = move |event: KeyboardEvent| {
        if follow(showing, nav, &event) {
            event.prevent_default();
            event.stop_propagation();
        }
    };
    view! {
        <section
            class="customer"
            class:lit=showing.lit
            aria-label=words::FOR_THE_CUSTOMER
            tabindex="-1"
            node_ref=screen
            on:keydown=pressed
        >
            <p class="big-letter" aria-hidden="true">
                {move || showing.letter()}
            </p>
            <button class="customer-close" on:click=move |_| nav.close_area()>
                {words::CLOSE_CUSTOMER}
            </button>
            <Title showing />
            <LargeGlass showing />
            <Choosing showing />
            <Others showing />
            <p class="touch-it">{words::TOUCH_THE_GLASS}</p>
            <p class="each-by-hand">{words::EACH_BY_HAND}" "<CautionsWord class="word" /></p>
        </section>
    }
}

/// Does what a key means; whether it meant anything. Enter and Space on a button are the button's own.
fn follow(showing: Showing, nav: Nav, event: &KeyboardEvent) -> bool {
    let typing = event.target().is_some_and(|target| target.has_type::<HtmlInputElement>());
    let on_screen = event.target() == event.current_target();
    match event.key().as_str() {
        "ArrowLeft" if !typing => showing.go(-1),
        "ArrowRight" if !typing => showing.go(1),
        "Home" if !typing => showing.at.set(0),
        " " if on_screen => showing.toggle_light(),
        "Escape" => nav.close_area(),
        _ => return false,
    }
    true
}

#[component]
fn Title(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let size = Memo::new(move |_| {
        showing.recipe().map_or_else(String::new, |recipe| finished_size(&recipe, preferences))
    });
    view! {
        <div class="customer-title">
            <b>{move || piece.recipe.read().title.clone()}</b>
            <span>{size}</span>
        </div>
    }
}
