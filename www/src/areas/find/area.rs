//! The area as a whole: the dome stays in sight above its paper.

use super::color::wanted_color;
use super::how::how;
use super::ringed::{Ring, ring_part};
use super::rows::{WAY, rows, way_id};
use super::state::FindState;
use crate::controls::cautions::CautionsWord;
use crate::controls::photo::PhotoIntake;
use crate::dom::focus;
use crate::state::finding::Ringed;
use crate::words;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent};

/// The area.
pub fn find_area() -> AnyView {
    let state = FindState::start();
    let ring = Ring::new(state);
    let intake = PhotoIntake::new(move |photo| ring.bring(Ringed::new(photo)));
    view! {
        <section
            class="area find-area"
            aria-label=words::FIND_A_COLOR
            tabindex="-1"
            on:keydown=move |event| press(state, &event)
            on:dragover=move |event| event.prevent_default()
            on:drop=move |event| intake.take_dropped(&event)
        >
            <div class="tray-top">
                <h2>{words::FIND_A_COLOR}</h2>
                <span>{move || words::for_coat(&state.coat_name())}</span>
                <span class="gap"></span>
                <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| state.nav.close_area()>
                    {words::CLOSE}
                </button>
            </div>
            <div class="kiln-paper find-paper">
                <div class="find-head">{wanted_color(state)} {how(state)} {ring_part(ring, intake)}</div>
                {rows(state)}
            </div>
        </section>
    }
    .into_any()
}

/// Arrows try the next way, Enter on one puts it in; Esc lays the area aside as any other.
fn press(state: FindState, event: &KeyboardEvent) {
    let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    let on_way = target.is_some_and(|target| target.class_list().contains(WAY));
    match event.key().as_str() {
        "ArrowDown" => state.choose_next(1),
        "ArrowUp" => state.choose_next(-1),
        "Home" if on_way => state.choose(0),
        "End" if on_way => state.choose_next(isize::MAX),
        "Enter" if on_way => state.put_in(),
        _ => return,
    }
    event.prevent_default();
    if on_way {
        focus::focus_id(&way_id(state.chosen.get_untracked()));
    }
}
