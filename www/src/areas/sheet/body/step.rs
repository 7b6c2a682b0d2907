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
use dappledome::base::notice::Step;
use leptos::prelude::*;

/// What a step shows when it is open.
#[component]
pub fn StepBody(
    /// Which step.
    step: Step,
    /// What it has drawn out, if it is a coat.
    drawer: RwSignal<Option<CoatDrawer>>,
) -> impl IntoView {
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
