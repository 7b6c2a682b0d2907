//! The table's top line: what was done, to be taken back, and the ways to areas and panels. Where there is little room, all
//! but *Undo* is behind *More*.

use crate::areas::info::{AreaInfo, PanelInfo, PanelWord};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The line.
#[component]
pub fn TopLine(
    /// The areas; those with a word are opened here.
    areas: &'static [AreaInfo],
    /// The panels; those with a word are opened here.
    panels: &'static [PanelInfo],
) -> impl IntoView {
    let unfolded = RwSignal::new(false);
    view! {
        <div class="top-line">
            <Undo />
            <span class="more-word">
                <button
                    class="table-word"
                    aria-expanded=move || unfolded.get().to_string()
                    on:click=move |_| unfolded.update(|unfolded| *unfolded = !*unfolded)
                >
                    {words::MORE}
                </button>
            </span>
            <div class="more-words" class:unfolded=move || unfolded.get() on:click=move |_| unfolded.set(false)>
                <Redo />
                <StepsWords panels />
                <span class="gap"></span>
                <AreaWords areas />
                <span class="narrow-only">{panel_words(panels, where_narrow)}</span>
                {panel_words(panels, at_the_end)}
            </div>
        </div>
    }
}

/// Takes the last change back.
#[component]
fn Undo() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let what = move || words::after(piece.next_steps.read().back.as_ref());
    view! {
        <Show when=move || piece.next_steps.read().back.is_some()>
            <button class="table-word" on:click=move |_| piece.step_by(-1)>
                {words::UNDO}
                <span class="wide-only">{what}</span>
            </button>
        </Show>
    }
}

/// Brings it again.
#[component]
fn Redo() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    view! {
        <Show when=move || piece.next_steps.read().forward.is_some()>
            <button class="table-word" on:click=move |_| piece.step_by(1)>
                {words::REDO}
            </button>
        </Show>
    }
}

/// The panels about the steps, as soon as there is more than one of them.
#[component]
fn StepsWords(
    /// All panels.
    panels: &'static [PanelInfo],
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    view! {
        <Show when=move || {
            piece.next_steps.read().count > 1
        }>{panel_words(panels, behind_undo)}</Show>
    }
}

/// The areas.
#[component]
fn AreaWords(
    /// All areas.
    areas: &'static [AreaInfo],
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    let word = |area: &'static AreaInfo| {
        let word = area.word?;
        Some(view! {
            <button class="table-word" on:click=move |_| nav.open_area(area.id)>
                {word}
            </button>
        })
    };
    areas.iter().filter_map(word).collect_view()
}

fn behind_undo(word: PanelWord) -> Option<&'static str> {
    if let PanelWord::BehindUndo(word) = word { Some(word) } else { None }
}

fn at_the_end(word: PanelWord) -> Option<&'static str> {
    if let PanelWord::AtTheEnd(word) = word { Some(word) } else { None }
}

fn where_narrow(word: PanelWord) -> Option<&'static str> {
    if let PanelWord::WhereNarrow(word) = word { Some(word) } else { None }
}

/// The panels whose word is here.
fn panel_words(panels: &'static [PanelInfo], here: fn(PanelWord) -> Option<&'static str>) -> impl IntoView {
    let words = panels.iter().filter_map(move |panel| Some((panel.id, here(panel.word)?)));
    words.map(|(id, word)| view! { <PanelButton id word /> }).collect_view()
}

/// Lays a panel under the piece, or aside.
#[component]
fn PanelButton(
    /// The panel.
    id: PanelId,
    /// Its word.
    word: &'static str,
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <button
            class="table-word"
            aria-expanded=move || nav.has_panel(id).to_string()
            on:click=move |_| nav.toggle_panel(id)
        >
            {word}
        </button>
    }
}
