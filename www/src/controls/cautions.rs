//! What can do harm: the list, and the word that lays it on the table from anywhere.

use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The list.
#[component]
pub fn CautionList() -> impl IntoView {
    let cautions = words::ALL_CAUTIONS.map(|(head, text)| {
        view! {
            <dt>{head}</dt>
            <dd>{text}</dd>
        }
    });
    view! {
        <div class="caution-list">
            <dl>{cautions}</dl>
            <p>{words::CAUTIONS_DEFER}</p>
        </div>
    }
}

/// The word that lays the cautions there, or aside.
#[component]
pub fn CautionsWord(
    /// How it is written: as one of a line's words, or as a word in running text.
    class: &'static str,
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <button
            class=class
            aria-expanded=move || nav.has_panel(PanelId::CAUTIONS).to_string()
            on:click=move |_| nav.toggle_panel(PanelId::CAUTIONS)
        >
            {words::CAUTIONS}
        </button>
    }
}
