//! One sister on the grid.

use super::state::GridState;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::html;
use leptos::prelude::*;

/// A sister: her picture, her letter if she is kept, her seed.
#[component]
pub fn SisterCell(
    /// Which sister.
    seed: Seed,
    /// What the cells share.
    state: GridState,
) -> impl IntoView {
    let (tray, piece) = (expect_context::<Tray>(), expect_context::<Workpiece>());
    let results = expect_context::<Results>();
    let cell = NodeRef::<html::Div>::new();
    state.register(seed, cell);
    let letter = Memo::new(move |_| piece.sisters.read().letter(seed));
    let features = Memo::new(move |_| results.features_of(seed));
    let pointed = Memo::new(move |_| tray.at.get() == seed);
    let label = move || {
        let letter = letter.get();
        piece
            .recipe
            .with(|recipe| words::sister_cell(recipe, seed, letter.as_deref(), features.read().as_ref()))
    };
    view! {
        <div
            class="sister"
            class:pointed=pointed
            class:lifted=move || tray.lifted.get().contains(&Some(seed))
            class:coming=move || features.read().is_none()
            role="gridcell"
            data-seed=seed.to_string()
            aria-label=label
            aria-selected=move || pointed.get().to_string()
            tabindex=move || if tray.reached.get() == Some(seed) { "0" } else { "-1" }
            node_ref=cell
            on:click=move |_| tray.at.set(seed)
            on:dblclick=move |_| tray.work_on(seed)
        >
            <span class="round">
                <Picture of=PictureSlot::Sister(seed) />
            </span>
            <span class="sister-name" aria-hidden="true">
                <b>{move || letter.get().map_or_else(String::new, |letter| format!("{letter} "))}</b>
                {seed.to_string()}
            </span>
        </div>
    }
}
