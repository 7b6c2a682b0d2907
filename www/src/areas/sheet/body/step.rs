//! The body of a step, whichever it is.

use super::accents::AccentsBody;
use super::batch::BatchBody;
use super::blank::BlankBody;
use super::coat::CoatBody;
use super::fuse::FuseBody;
use super::slump::SlumpBody;
use super::sponge::SpongeBody;
use super::stem::StemBody;
use crate::areas::sheet::state::CoatDrawer;
use crate::controls::part::{Draws, fetch_ahead, inner_part};
use dappledome::base::notice::Step;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// A step that can be open.
#[derive(Clone, Copy)]
pub struct OpenStep {
    /// Which step.
    pub step: Step,
    /// What it has drawn out, if it is a coat.
    pub drawer: RwSignal<Option<CoatDrawer>>,
}

/// What the step of the context shows when it is open.
pub fn step_body() -> AnyView {
    inner_part(|| Box::pin(door()))
}

/// Fetches what draws it before a step is opened.
pub fn ahead() {
    fetch_ahead(Box::pin(door()));
}

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(body)
}

fn body() -> AnyView {
    let OpenStep { step, drawer } = expect_context();
    match step {
        Step::Coat(id) => view! { <CoatBody id drawer /> }.into_any(),
        Step::Blank => view! { <BlankBody /> }.into_any(),
        Step::Sponge => view! { <SpongeBody /> }.into_any(),
        Step::Fuse => view! { <FuseBody /> }.into_any(),
        Step::Accents => view! { <AccentsBody /> }.into_any(),
        Step::Slump => view! { <SlumpBody /> }.into_any(),
        Step::Stem => view! { <StemBody /> }.into_any(),
        Step::Ticket | Step::Recipe => view! { <BatchBody /> }.into_any(),
    }
}
