//! The table and everything on it.

use super::bottom_line::BottomLine;
use super::dimensions::Dimensions;
use super::edge::Edge;
use super::glass::Glass;
use super::layout::{HandLayout, HandLine};
use super::spine::Spine;
use super::top_line::TopLine;
use super::twin::Twin;
use crate::areas::info::{AreaInfo, PanelInfo};
use crate::controls::later::Later;
use crate::model::ids::AreaId;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The table and everything on it.
#[component]
pub fn Viewer(
    /// The areas; those with a word are opened from the top line.
    areas: &'static [AreaInfo],
    /// The panels that can lie under the piece.
    panels: &'static [PanelInfo],
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    provide_context(HandLayout::new());
    view! {
        <section
            class="table"
            class:with-slip=move || nav.panel.get().is_some()
            id="piece"
            aria-label=words::PIECE
            tabindex="-1"
        >
            <div class="glass-place">
                <Glass />
                <Later>
                    <HandLine />
                    <Dimensions />
                    <Twin />
                </Later>
            </div>
            <Later>
                <TopLine areas panels />
                <BottomLine />
            </Later>
            <Later>
                <Spine />
            </Later>
            <Later>
                <Show when=move || nav.is_on(AreaId::PIECE)>
                    <Edge />
                </Show>
            </Later>
            <Later>
                <PanelPlace panels />
            </Later>
        </section>
    }
}

/// Where the panel lies.
#[component]
fn PanelPlace(
    /// The panels that can lie there.
    panels: &'static [PanelInfo],
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    let there = Memo::new(move |_| nav.panel.get());
    let panel = move || {
        let id = there.get()?;
        panels.iter().find(|panel| panel.id == id).map(|panel| (panel.view)())
    };
    view! { <div class="slip-place" aria-live="polite">{panel}</div> }
}
