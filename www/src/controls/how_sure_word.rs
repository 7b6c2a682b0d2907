//! How sure the colors of the piece are, in one line, and the word that opens why.

use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The line; nothing before it is known, and on a blank without powder.
#[component]
pub fn HowSureWord() -> impl IntoView {
    let (results, nav) = (expect_context::<Results>(), expect_context::<Nav>());
    let piece = expect_context::<Workpiece>();
    let about = Memo::new(move |_| results.how_sure.with(|how| words::about_sure(how.as_ref()?)));
    let known = move || piece.plan.read().works && about.with(Option::is_some);
    view! {
        <Show when=known>
            {words::COLORS}
            " "
            <button
                class="word"
                aria-expanded=move || nav.has_panel(PanelId::HOW_SURE).to_string()
                title=words::HOW_SURE_TITLE
                on:click=move |_| nav.toggle_panel(PanelId::HOW_SURE)
            >
                {about}
            </button>
            "."
        </Show>
    }
}
