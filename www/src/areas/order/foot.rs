//! The foot: what one costs and what is asked, and the papers.

use super::bench::number;
use super::state::OrderState;
use crate::fields::types::Unit;
use crate::state::order_paper::OrderPaper;
use crate::words;
use dappledome::orders::limits::MONEY;
use dappledome::orders::price::{PiecePrice, Priced};
use dappledome::paper::kind::Kind;
use leptos::prelude::*;

/// The foot.
#[component]
pub fn Foot(
    /// The order.
    state: OrderState,
) -> impl IntoView {
    let paper = expect_context::<OrderPaper>();
    let priced = Memo::new(move |_| state.worked(|worked| worked.cost.priced.is_some()).unwrap_or(false));
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
            <Show when=move || priced.get()>{sums(state)}</Show> <span class="gap"></span> <div class="buttons">{papers.collect_view()}</div>
        </footer>
    }
}

/// What one costs and is asked for, and all of them. The fields stay while their sums change: somebody may be typing in one.
fn sums(state: OrderState) -> AnyView {
    let of_order = move |look: fn(&Priced) -> Option<f64>| {
        state.worked(|worked| worked.cost.priced.as_ref().and_then(look)).flatten()
    };
    let of_piece = move |look: fn(&PiecePrice) -> f64| {
        let line = state.line();
        state.worked(|worked| Some(look(worked.cost.priced.as_ref()?.lines.get(line)?))).flatten()
    };
    let total = |label: &'static str, sum: Signal<Option<f64>>| {
        view! {
            <div class="total">
                <dt>{label}</dt>
                <dd>{move || sum.get().map(words::money)}</dd>
            </div>
        }
    };
    let ask = move |to: Option<f64>| {
        let line = untrack(|| state.line());
        state.edit(words::DID_PRICES, |order| {
            if let Some(line) = order.lines.get_mut(line) {
                line.asked = to;
            }
        });
    };
    let tax = Memo::new(move |_| of_order(|priced| priced.with_tax).is_some());
    view! {
        <dl>
            {total(words::COSTS_YOU, Signal::derive(move || of_piece(|price| price.each)))}
            <div class="total">
                <dt>{words::WHOLESALE}</dt>
                <dd>
                    {number(
                        state,
                        words::WHOLESALE.into(),
                        (Unit::Money, MONEY),
                        move || of_piece(|price| price.wholesale),
                        ask,
                    )}
                </dd>
            </div>
            {total(words::RETAIL, Signal::derive(move || of_piece(|price| price.retail)))}
            {total(words::THIS_ORDER, Signal::derive(move || of_order(|priced| Some(priced.order))))}
            <Show when=move || tax.get()>
                {total(words::WITH_TAX, Signal::derive(move || of_order(|priced| priced.with_tax)))}
            </Show>
        </dl>
    }
    .into_any()
}
