//! The rows as they lie there: pressed, each opens its detail.

use super::rows::Row;
use super::state::{OrderState, Part};
use crate::areas::sheet::colors;
use crate::controls::color_pair::ColorPair;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;

/// The rows, under the heads of their columns.
#[component]
pub fn Table(
    /// The order.
    state: OrderState,
    /// Its rows.
    rows: Memo<Vec<Row>>,
) -> impl IntoView {
    let lines = move || {
        let planned = untrack(|| state.of_line(|line| Plan::new(&line.recipe).ok())).flatten();
        let plan = planned.map(|planned| planned.plan);
        rows.get().into_iter().map(|row| line(state, row, plan.as_ref())).collect_view()
    };
    view! {
        <div class="order-table">
            <div class="order-heads" aria-hidden="true">
                <span></span>
                <span></span>
                <span></span>
                <span>{words::ON_HAND}</span>
                <span>{words::TO_BUY}</span>
            </div>
            <ol class="order-rows">{lines}</ol>
        </div>
    }
}

fn line(state: OrderState, row: Row, plan: Option<&Plan>) -> AnyView {
    let part = part(row.step);
    let pair = plan.and_then(|plan| colors(row.step, plan));
    let colors = Memo::new(move |_| pair);
    view! {
        <li class:apart=row.apart>
            <button
                class="order-row"
                aria-expanded=move || (state.part.get() == part).to_string()
                on:click=move |_| state.show(part)
            >
                {if pair.is_some() {
                    view! { <ColorPair colors /> }.into_any()
                } else {
                    view! { <span class="no-swatch"></span> }.into_any()
                }}
                <span class="row-words">
                    <b>{row.name}</b>
                    " "
                    <span class="summary">{row.said}</span>
                </span>
                <span class="number">{row.all}</span>
                <span class="on-hand">{row.on_hand}</span>
                <span class="to-buy" class:short=row.short>
                    {row.to_buy}
                </span>
            </button>
        </li>
    }
    .into_any()
}

/// The detail of a step.
fn part(step: Step) -> Part {
    match step {
        Step::Coat(_) | Step::Sponge => Part::Weigh,
        Step::Fuse | Step::Accents | Step::Slump => Part::Kiln,
        Step::Stem => Part::Stems,
        _ => Part::Cut,
    }
}
