//! The foot: what one costs and what is asked, and the papers.

use super::bench::number;
use super::state::OrderState;
use crate::fields::types::Unit;
use crate::state::order_paper::OrderPaper;
use crate::words;
use dappledome::orders::limits::MONEY;
use dappledome::orders::price::PiecePrice;
use dappledome::paper::kind::Kind;
use leptos::prelude::*;

/// The foot.
#[component]
pub fn Foot(
    /// The order.
    state: OrderState,
) -> impl IntoView {
    let paper = expect_context::<OrderPaper>();
    let papers = [
        (Kind::Quote, words::QUOTE),
        (Kind::SiftMap, words::SIFT_MAP),
        (Kind::Labels, words::LABELS),
        (Kind::MakeSheet, words::MAKE_SHEET),
    ];
    let papers = papers.map(|(kind, word)| {
        view! {
            <button
                class="button"
                class:main=kind == Kind::MakeSheet
                on:click=move |_| paper.open(kind)
            >
                {word}
            </button>
        }
    });
    view! {
        <footer class="order-foot">
            {move || sums(state)} <span class="gap"></span> <div class="buttons">{papers.collect_view()}</div>
        </footer>
    }
}

/// Nothing before there are prices.
fn sums(state: OrderState) -> Option<AnyView> {
    let line = state.line();
    let worked = state.orders.worked.get()?;
    let priced = worked.cost.priced.as_ref()?;
    let PiecePrice { each, retail, .. } = *priced.lines.get(line)?;
    let total = |label: &'static str, sum: f64| {
        view! {
            <div class="total">
                <dt>{label}</dt>
                <dd>{words::money(sum)}</dd>
            </div>
        }
    };
    let asked = move || {
        state.worked(|worked| Some(worked.cost.priced.as_ref()?.lines.get(line)?.wholesale)).flatten()
    };
    let ask = move |to: Option<f64>| {
        state.edit(words::DID_PRICES, |order| {
            if let Some(line) = order.lines.get_mut(line) {
                line.asked = to;
            }
        });
    };
    Some(
        view! {
            <dl>
                {total(words::COSTS_YOU, each)}
                <div class="total">
                    <dt>{words::WHOLESALE}</dt>
                    <dd>{number(state, words::WHOLESALE.into(), (Unit::Money, MONEY), asked, ask)}</dd>
                </div> {total(words::RETAIL, retail)} {total(words::THIS_ORDER, priced.order)}
                {priced.with_tax.map(|sum| total(words::WITH_TAX, sum))}
            </dl>
        }
        .into_any(),
    )
}
