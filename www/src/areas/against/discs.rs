//! The discs side by side: what came out, what was foretold, and how far each place is off; or one wiped over the other.

use super::state::AgainstState;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::dom::canvas;
use crate::state::against::By;
use crate::words;
use dappledome::compare::foretold::CELLS;
use dappledome::worker::asked::{Cell, Compared};
use leptos::html;
use leptos::prelude::*;

/// Grays of a place that is off by less than 2, 4, 8 and by more, CIEDE2000.
const GRAYS: [(f32, u8); 4] = [(2.0, 0xe4), (4.0, 0xb0), (8.0, 0x7c), (f32::INFINITY, 0x38)];

/// The discs, and how they are compared.
pub fn discs(state: AgainstState) -> AnyView {
    let by = state.against.by;
    let option = move |word: &'static str, one: By| {
        let chosen = Signal::derive(move || by.get() == one);
        view! { <ChoiceOption word chosen choose=Callback::new(move |()| by.set(one)) /> }
    };
    let figures = move || match by.get() {
        By::Wipe => wiped(state),
        by => view! {
            {figure(state, words::FIRED_DISC, |cell| cell.fired)}
            {figure(state, words::FORETOLD_DISC, |cell| cell.foretold)}
            {(by == By::Place).then(|| apart(state))}
        }
        .into_any(),
    };
    view! {
        <div class="against-discs">
            <Choice label=words::COMPARE_BY named=true>
                {option(words::BY_COLOR, By::Color)} {option(words::BY_PLACE, By::Place)}
                {option(words::BY_WIPE, By::Wipe)}
            </Choice>
            <div class="against-figures">{figures}</div>
        </div>
    }
    .into_any()
}

fn figure(state: AgainstState, name: &'static str, color: fn(&Cell) -> [u8; 3]) -> AnyView {
    view! {
        <figure>
            {disc(state, color)}
            <figcaption>{name}</figcaption>
        </figure>
    }
    .into_any()
}

/// How far each place is off, with what its grays mean.
fn apart(state: AgainstState) -> AnyView {
    let gray = |cell: &Cell| {
        let [.., (_, darkest)] = GRAYS;
        let found = GRAYS.iter().find(|(most, _)| cell.apart < *most);
        [found.map_or(darkest, |(_, gray)| *gray); 3]
    };
    let turned = move || state.comparison().map(|compared| words::turned_by(compared.turned));
    view! {
        <figure>
            {disc(state, gray)}
            <figcaption>
                {words::APART_DISC} " " <span class="aside">{turned}</span>
            </figcaption>
        </figure>
    }
    .into_any()
}

/// One over the other, with a rule that wipes.
fn wiped(state: AgainstState) -> AnyView {
    let at = RwSignal::new(50.0_f64);
    let slide = move |event| at.set(event_target_value(&event).parse().unwrap_or(50.0));
    view! {
        <figure class="against-wipe" style=("--wipe", move || format!("{}%", at.get()))>
            <span class="stack">{disc(state, |cell| cell.foretold)} {disc(state, |cell| cell.fired)}</span>
            <figcaption>
                <label>
                    {words::WIPE_SIDES}
                    <input type="range" min="0" max="100" prop:value=move || at.get().to_string() on:input=slide />
                </label>
            </figcaption>
        </figure>
    }
    .into_any()
}

/// A disc on a canvas, drawn anew with each comparison.
fn disc(state: AgainstState, color: fn(&Cell) -> [u8; 3]) -> AnyView {
    let place = NodeRef::<html::Canvas>::new();
    Effect::new(move || {
        if let (Some(canvas), Some(compared)) = (place.get(), state.comparison()) {
            let side = CELLS as i32;
            canvas::show_photo(&canvas, (side, side), &pixels(&compared, color));
        }
    });
    view! { <canvas class="against-disc" node_ref=place aria-hidden="true"></canvas> }.into_any()
}

fn pixels(compared: &Compared, color: fn(&Cell) -> [u8; 3]) -> Vec<u8> {
    let pixel = |cell: &Option<Cell>| match cell {
        Some(cell) => {
            let [red, green, blue] = color(cell);
            [red, green, blue, 255]
        }
        None => [0; 4],
    };
    compared.cells.iter().flat_map(pixel).collect()
}
