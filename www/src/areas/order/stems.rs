//! The stems: what is bought for all of them, and what one of the shown line is like.

use super::state::OrderState;
use crate::words;
use dappledome::orders::worked::Worked;
use leptos::prelude::*;

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let shown = move || {
        let line = state.line();
        state.worked(bought).map(|bought| (bought, one(state, line)))
    };
    view! {
        <section class="order-pane" aria-label=words::STEM_AND_JOINT>
            <h3>{words::STEM_AND_JOINT}</h3>
            {shown}
        </section>
    }
    .into_any()
}

/// Pipe, stoppers and silicone of the whole order.
fn bought(worked: &Worked) -> AnyView {
    let lines = words::stems_bought(&worked.stems);
    view! { <ul>{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul> }.into_any()
}

/// One stem of a line, and what to mind.
fn one(state: OrderState, line: usize) -> Option<AnyView> {
    let stem = state.of_line(|line| line.recipe.stem).flatten()?;
    let needs = state.worked(|worked| Some(worked.stems.lines.get(line)?.as_ref()?.0)).flatten()?;
    let units = state.preferences.units.get();
    let minded = words::minded(&needs, &stem.in_ground.to_string());
    let minded = minded.map(|(head, text)| view! { <p><b>{head}</b> " " {units.text(&text)}</p> });
    Some(view! { <p>{units.text(&words::fit(&stem, &needs))}</p> {minded} }.into_any())
}
