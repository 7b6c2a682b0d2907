//! The sheet as a whole.

use super::add::Additions;
use super::body::ahead;
use super::foot::Foot;
use super::head::Head;
use super::list::StepList;
use super::next_time::next_time;
use super::state::StepItems;
use crate::controls::cautions::CautionsWord;
use crate::controls::how_sure_word::HowSureWord;
use crate::controls::later::Later;
use crate::controls::what_seeds_are::WhatSeedsAre;
use crate::model::ids::AreaId;
use crate::state::nav::Nav;
use crate::state::viewing::Viewing;
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
    let (nav, viewing) = (expect_context::<Nav>(), expect_context::<Viewing>());
    // What opened steps show comes behind the first picture.
    Effect::new(move || {
        if viewing.drawn.get() {
            ahead();
        }
    });
    view! {
        <section
            class="sheet"
            id="recipe"
            aria-label=words::RECIPE
            tabindex="-1"
            inert=move || nav.is_on(AreaId::CUSTOMER) || nav.is_on(AreaId::FIND)
        >
            <Head />
            <div class="list">
                <Later>
                    {next_time()}
                    <StepList />
                    <Additions />
                    {
                        let beside = beside.clone();
                        move || beside.run()
                    }
                    <p class="aside sheet-forecast">{move || viewing.otherwise()}" "{words::FORECAST}" "<HowSureWord />" "<CautionsWord class="word" /></p>
                    <WhatSeedsAre />
                </Later>
            </div>
            <Foot />
        </section>
    }
}
