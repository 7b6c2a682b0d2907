//! The welcome: what lies on the table, and what else to begin with.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::picture::Picture;
use crate::model::demos::demos;
use crate::model::ids::PanelId;
use crate::model::slots::PictureSlot;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::picture::view::Stage;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::WELCOME, word: PanelWord::None, view: || view! { <Welcome /> }.into_any() };

/// The welcome.
#[component]
fn Welcome() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    // The first of them lies on the table.
    let others = demos().iter().enumerate().skip(1).map(|(at, recipe)| view! { <Demo at recipe /> });
    view! {
        <div class="slip welcome">
            <div class="slip-head">
                <p>
                    <b>{words::WELCOME}</b>
                    " "
                    {words::WELCOME_MORE}
                </p>
                <button class="word" on:click=move |_| nav.close_panel()>{words::CLOSE}</button>
            </div>
            <div class="demos">
                {others.collect_view()}
                <button
                    class="button"
                    on:click=move |_| piece.take_up_demo(words::BARE_BLANK, &Recipe::bare())
                >
                    {words::BARE_BLANK}
                </button>
            </div>
        </div>
    }
}

/// A recipe that comes with the program.
#[component]
fn Demo(
    /// Its place among them.
    at: usize,
    /// What it is.
    recipe: &'static Recipe,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let title = recipe.title.as_str();
    view! {
        <button class="demo" on:click=move |_| piece.take_up_demo(&words::opening(title), recipe)>
            <span class="round">
                <Picture of=PictureSlot::Demo(at, Stage::Fused) />
            </span>
            <span>{title}</span>
        </button>
    }
}
