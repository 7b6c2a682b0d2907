//! The worker that draws the piece broke again and again.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::services::render::piece::PieceRenderer;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo =
    PanelInfo { id: PanelId::STOPPED, word: PanelWord::None, view: || view! { <Stopped /> }.into_any() };

/// The picture stopped.
#[component]
fn Stopped() -> impl IntoView {
    let (nav, renderer) = (expect_context::<Nav>(), expect_context::<PieceRenderer>());
    let draw_again = move |_| {
        nav.close_panel();
        renderer.draw_again();
    };
    view! {
        <div class="slip" role="alert">
            <p>
                <b>{words::STOPPED}</b>
                " "
                {words::STOPPED_MORE}
            </p>
            <div class="buttons">
                <button class="button main" on:click=draw_again>{words::DRAW_AGAIN}</button>
            </div>
        </div>
    }
}
