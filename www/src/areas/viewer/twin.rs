//! The picture in words, for those who do not see it.

use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The words, and the keys of the picture.
#[component]
pub fn Twin() -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let lines = Memo::new(move |_| {
        piece.recipe.with(|recipe| {
            let coats = recipe.coats.iter().map(|coat| words::coat_line(recipe, coat));
            std::iter::once(words::blank(recipe)).chain(coats).collect::<Vec<_>>()
        })
    });
    let line = move |at: usize| lines.read().get(at).map_or_else(String::new, |line| preferences.text(line));
    view! {
        <div class="unseen">
            <ul id="twin">
                <For each=move || 0..lines.with(Vec::len) key=|at| *at let:at>
                    <li>{move || line(at)}</li>
                </For>
            </ul>
            <p id="keys">{words::GLASS_KEYS}</p>
        </div>
    }
}
