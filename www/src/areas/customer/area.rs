//! The screen turned to the customer.

use super::large::LargeGlass;
use super::others::Others;
use super::state::Showing;
use crate::areas::finished_size::finished_size;
use crate::controls::cautions::CautionsWord;
use crate::dom::focus::focus;
use crate::model::ids::AreaId;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;

/// The whole screen.
#[component]
pub fn CustomerArea() -> impl IntoView {
    let (nav, announcer) = (expect_context::<Nav>(), expect_context::<Announcer>());
    let showing = Showing::new(expect_context::<Workpiece>());
    let screen = NodeRef::<html::Section>::new();
    screen.on_load(|screen| focus(Some(&screen)));
    let pressed = move |event: KeyboardEvent| {
        match event.key().as_str() {
            "ArrowLeft" => showing.go(-1),
            "ArrowRight" => showing.go(1),
            "Home" => showing.at.set(0),
            " " => showing.toggle_light(),
            "Enter" => showing.choose(announcer),
            "Escape" => nav.open_area(AreaId::TRAY),
            _ => return,
        }
        event.prevent_default();
        event.stop_propagation();
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
            <Title />
            <LargeGlass showing />
            <ChooseButton showing />
            <Others showing />
            <p class="touch-it">{words::TOUCH_THE_GLASS}</p>
            <p class="each-by-hand">{words::EACH_BY_HAND}" "<CautionsWord class="word" /></p>
        </section>
    }
}

#[component]
fn Title() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    view! {
        <div class="customer-title">
            <b>{move || piece.recipe.read().title.clone()}</b>
            <span>{move || finished_size(results, preferences)}</span>
        </div>
    }
}

#[component]
fn ChooseButton(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let announcer = expect_context::<Announcer>();
    let said = move || {
        if showing.chosen() { words::you_chose(&showing.letter()) } else { words::THIS_ONE.into() }
    };
    view! {
        <div class="customer-choose">
            <button
                class="button main"
                aria-pressed=move || showing.chosen().to_string()
                on:click=move |_| showing.choose(announcer)
            >
                {said}
            </button>
        </div>
    }
}
