//! The recipes that come with the program, in a row of their own.

use super::dome::Dome;
use super::roving::{DomeKey, Roving};
use crate::controls::picture::Picture;
use crate::model::demos::demos;
use crate::model::slots::PictureSlot;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::picture::view::Stage;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The recipes to start from.
#[component]
pub fn Starts() -> impl IntoView {
    let keys: Vec<DomeKey> = (0..demos().len()).map(DomeKey::Start).collect();
    let roving = Roving::new(Signal::stored(keys), Signal::stored(None));
    let items = demos().iter().enumerate().map(|(at, recipe)| view! { <Start roving at recipe /> });
    view! {
        <div class="starts">
            <h3>{words::STARTS}</h3>
            <div class="pieces-place">
                <ul class="pieces" role="list" aria-label=words::STARTS aria-description=words::SHELF_KEYS>
                    {items.collect_view()}
                </ul>
            </div>
        </div>
    }
}

/// One of them.
#[component]
fn Start(
    /// Their list.
    roving: Roving,
    /// Its place among them.
    at: usize,
    /// What it is.
    recipe: &'static Recipe,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let key = DomeKey::Start(at);
    let spot = roving.join(key);
    let take_up = move || piece.take_up_demo(&words::opening(&recipe.title), recipe);
    view! {
        <li
            class="kept-piece"
            node_ref=spot.item
            on:focusin=move |_| roving.stop_at(key)
            on:keydown=move |event| roving.walk(key, &event)
        >
            <Dome roving key spot title=recipe.title.clone() take_up>
                <span class="round">
                    <Picture of=PictureSlot::Demo(at, Stage::Domed) />
                </span>
                <b>{recipe.title.as_str()}</b>
            </Dome>
        </li>
    }
}
