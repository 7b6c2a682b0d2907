//! The tray's edge beside the piece: the next sisters peeping in, each to be pulled in by a press.

use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use leptos::prelude::*;

/// The edge.
#[component]
pub fn Edge() -> impl IntoView {
    let tray = expect_context::<Tray>();
    view! {
        <div class="edge">
            <button class="table-word" on:click=move |_| tray.open()>
                {words::TRAY}
            </button>
            <div class="edge-discs">
                <For each=move || tray.edge.get() key=|seed| *seed let:seed>
                    <EdgeDisc seed />
                </For>
            </div>
        </div>
    }
}

/// A sister peeping in.
#[component]
fn EdgeDisc(
    /// The sister.
    seed: Seed,
) -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let pull_in = move |_| {
        piece.sow(seed);
        preferences.note_seeds();
    };
    view! {
        <button
            class="edge-disc"
            aria-label=words::pull_in(seed)
            class:coming=move || !results.is_drawn(seed)
            on:click=pull_in
        >
            <span class="round">
                <Picture of=PictureSlot::Sister(seed) />
            </span>
        </button>
    }
}
