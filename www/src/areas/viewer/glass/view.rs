//! The picture and what lies on it.

use super::keys::GlassKeys;
use super::pointers::Pointers;
use super::size;
use crate::areas::viewer::core_sample::{SampleRing, Sampling};
use crate::areas::viewer::layout::{HandLayout, Handles, Marks, SpongeRing};
use crate::controls::later::Later;
use crate::controls::picture::Picture;
use crate::model::ids::PanelId;
use crate::model::slots::PictureSlot;
use crate::state::nav::Nav;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The picture.
#[component]
pub fn Glass() -> impl IntoView {
    let (viewing, nav) = (expect_context::<Viewing>(), expect_context::<Nav>());
    let (piece, layout) = (expect_context::<Workpiece>(), expect_context::<HandLayout>());
    let sampling = Sampling::new();
    let pointers = Pointers::new(layout, sampling, viewing);
    let keys = GlassKeys { layout, sampling, viewing, piece, nav };
    size::follow(layout.glass, viewing);
    let label = move || {
        let shown = words::picture(&piece.recipe.read().title, viewing.stage.get(), viewing.light.get());
        viewing.otherwise().map_or_else(|| shown.clone(), |otherwise| format!("{shown}. {otherwise}"))
    };
    view! {
        <div
            node_ref=layout.glass
            class="glass"
            class:laying=move || layout.laying.get().is_some()
            role="application"
            aria-roledescription=words::GLASS_ROLE
            aria-describedby="twin keys"
            aria-label=label
            tabindex="0"
            on:keydown=move |event| keys.press(&event)
            on:wheel=move |event| pointers.wheel(&event)
            on:pointerdown=move |event| pointers.down(&event)
            on:pointermove=move |event| pointers.moved(&event)
            on:pointerup=move |event| pointers.up(&event)
            on:pointercancel=move |event| pointers.cancel(&event)
        >
            <Picture of=PictureSlot::Glass />
            <Later>
                <Marks />
                <Handles />
                <SpongeRing />
            </Later>
            <Show when=move || nav.has_panel(PanelId::SAMPLE)>
                <SampleRing />
            </Show>
        </div>
    }
}
