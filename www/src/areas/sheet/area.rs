//! The sheet as a whole.

use super::add::Additions;
use super::foot::Foot;
use super::head::Head;
use super::list::StepList;
use super::state::StepItems;
use crate::controls::later::Later;
use crate::controls::what_seeds_are::WhatSeedsAre;
use crate::words;
use leptos::prelude::*;

/// The recipe, from its name to its totals.
#[component]
pub fn Sheet(
    /// What the area on the table adds under the steps.
    #[prop(into)]
    beside: ViewFn,
) -> impl IntoView {
    provide_context(StepItems::new());
    view! {
        <section class="sheet" id="recipe" aria-label=words::RECIPE tabindex="-1">
            <Head />
            <div class="list">
                <Later>
                    <StepList />
                    <Additions />
                    {
                        let beside = beside.clone();
                        move || beside.run()
                    }
                    <p class="aside sheet-forecast">{words::FORECAST}</p>
                    <WhatSeedsAre />
                </Later>
            </div>
            <Foot />
        </section>
    }
}
