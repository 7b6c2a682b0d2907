//! The stages of the piece on their spine.

use super::sinking::SlumpJoint;
use crate::controls::picture::Picture;
use crate::model::slots::PictureSlot;
use crate::state::viewing::{STAGES, Viewing};
use crate::words;
use dappledome::picture::view::Stage;
use leptos::prelude::*;

/// The spine.
#[component]
pub fn Spine() -> impl IntoView {
    view! {
        <nav class="spine" aria-label=words::STAGES>
            <ol>{STAGES.into_iter().map(|stage| view! { <StageItem stage /> }).collect_view()}</ol>
        </nav>
    }
}

/// A stage, and what lies between it and the next.
#[component]
fn StageItem(
    /// The stage.
    stage: Stage,
) -> impl IntoView {
    let viewing = expect_context::<Viewing>();
    let joint = match stage {
        Stage::Sifted => {
            let word = words::joint(stage);
            view! { <li class="joint" aria-hidden="true"><span>{word}</span></li> }.into_any()
        }
        Stage::Fused => view! { <SlumpJoint /> }.into_any(),
        Stage::Domed => ().into_any(),
    };
    view! {
        <li class="stage">
            <button
                aria-pressed=move || (viewing.stage.get() == stage).to_string()
                on:click=move |_| viewing.stage.set(stage)
            >
                <span class="round">
                    <Picture of=PictureSlot::Thumbnail(stage) />
                </span>
                <span class="stage-name">{words::stage(stage)}</span>
            </button>
        </li>
        {joint}
    }
}
