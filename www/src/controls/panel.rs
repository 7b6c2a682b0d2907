//! The head of a panel that is closed by a word.

use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The head of a panel: its title, and the word that lays it aside.
#[component]
pub fn PanelHead(
    /// The title.
    title: &'static str,
    /// What stands behind the word.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <div class="slip-head">
            <b>{title}</b>
            <button class="word" on:click=move |_| nav.close_panel()>{words::CLOSE}</button>
            {children.map(|children| children())}
        </div>
    }
}
