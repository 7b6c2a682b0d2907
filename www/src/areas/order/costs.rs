//! What one costs, and the prices that it is reckoned from.

use super::bench::{Field, numbers};
use super::head::notice;
use super::hours::HOURS;
use super::state::OrderState;
use crate::fields::types::Unit;
use crate::model::ids::AreaId;
use crate::words;
use dappledome::orders::bench::Bench;
use dappledome::orders::limits::{self, MONEY};
use dappledome::orders::model::{Card, Gain, Prices};
use dappledome::orders::price::{PiecePrice, Priced};
use leptos::prelude::*;

/// A price of the bench, for all that have one once there are any.
const fn price(
    label: &'static str,
    get: fn(&Bench) -> Option<f64>,
    set: fn(&mut Bench, Option<f64>),
) -> Field {
    Field { label, unit: Unit::Money, limit: MONEY, get, set }
}

fn read(bench: &Bench, of: fn(&Prices) -> Option<f64>) -> Option<f64> {
    bench.prices.as_ref().and_then(of)
}

fn write(bench: &mut Bench, change: impl FnOnce(&mut Prices)) {
    if let Some(prices) = &mut bench.prices {
        change(prices);
    }
}

fn margin(prices: &Prices) -> f64 {
    match prices.gain {
        Gain::Margin(share) => share,
        Gain::Markup(share) => share / (1.0 + share),
    }
}

fn markup(prices: &Prices) -> f64 {
    match prices.gain {
        Gain::Markup(share) => share,
        Gain::Margin(share) => share / (1.0 - share),
    }
}

const PRICES: [Field; 12] = [
    price(
        "An hour of yours",
        |b| read(b, |p| Some(p.hour)),
        |b, to| write(b, |p| p.hour = to.unwrap_or(0.0)),
    ),
    price(
        "Overhead of one",
        |b| read(b, |p| Some(p.overhead)),
        |b, to| write(b, |p| p.overhead = to.unwrap_or(0.0)),
    ),
    price(
        "Shelf paper, separator",
        |b| read(b, |p| Some(p.consumables)),
        |b, to| write(b, |p| p.consumables = to.unwrap_or(0.0)),
    ),
    price("Stem and joint", |b| read(b, |p| Some(p.stem)), |b, to| write(b, |p| p.stem = to.unwrap_or(0.0))),
    Field {
        label: "Breakage",
        unit: Unit::Share,
        limit: limits::BREAKAGE,
        get: |b| read(b, |p| Some(p.breakage)),
        set: |b, to| write(b, |p| p.breakage = to.unwrap_or(limits::BREAKAGE.usual)),
    },
    Field {
        label: "Margin",
        unit: Unit::Share,
        limit: limits::MARGIN,
        get: |b| read(b, |p| Some(margin(p))),
        set: |b, to| write(b, |p| p.gain = Gain::Margin(to.unwrap_or(limits::MARGIN.usual))),
    },
    Field {
        label: "Markup",
        unit: Unit::Share,
        limit: limits::MARKUP,
        get: |b| read(b, |p| Some(markup(p))),
        set: |b, to| write(b, |p| p.gain = Gain::Markup(to.unwrap_or(limits::MARKUP.usual))),
    },
    Field {
        label: "Retail over wholesale",
        unit: Unit::Number,
        limit: limits::RETAIL,
        get: |b| read(b, |p| Some(p.retail)),
        set: |b, to| write(b, |p| p.retail = to.unwrap_or(limits::RETAIL.usual)),
    },
    Field {
        label: "A card takes",
        unit: Unit::Share,
        limit: limits::CARD,
        get: |b| read(b, |p| p.card.map(|card| card.rate)),
        set: |b, to| {
            write(b, |p| p.card = to.map(|rate| Card { rate, fixed: p.card.map_or(0.0, |card| card.fixed) }));
        },
    },
    price(
        "And, of each sale",
        |b| read(b, |p| p.card.map(|card| card.fixed)),
        |b, to| {
            write(b, |p| {
                let rate = p.card.map_or(0.0, |card| card.rate);
                p.card = to.map(|fixed| Card { rate, fixed });
            });
        },
    ),
    price("Fee of a fair", |b| read(b, |p| p.fair), |b, to| write(b, |p| p.fair = to)),
    Field {
        label: "Tax",
        unit: Unit::Share,
        limit: limits::TAX,
        get: |b| read(b, |p| p.tax),
        set: |b, to| write(b, |p| p.tax = to),
    },
];

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let has = Memo::new(move |_| state.orders.bench.with(|bench| bench.prices.is_some()));
    let begin = move |_| state.edit_bench(words::DID_PRICES, |bench| bench.prices = Some(Prices::usual()));
    let end = move |_| state.edit_bench(words::DID_PRICES, |bench| bench.prices = None);
    view! {
        <section class="order-pane order-costs" aria-label=words::WHAT_ONE_COSTS>
            <h3>{words::WHAT_ONE_COSTS}</h3>
            <Show
                when=move || has.get()
                fallback=move || {
                    view! {
                        <p>
                            <b>{words::NO_PRICES}</b>
                            " "
                            {words::NONE_NEEDED}
                            " "
                            <button class="word" on:click=begin>
                                {words::WRITE_YOURS}
                            </button>
                        </p>
                    }
                }
            >
                {move || sums(state)}
                <details>
                    <summary>"Your prices"</summary>
                    <p class="aside">{words::PRICES_ARE_YOURS}</p>
                    <dl class="order-numbers">
                        {numbers(state, words::DID_PRICES, &PRICES)} {numbers(state, words::DID_HOURS, &HOURS)}
                    </dl>
                    <button class="word" on:click=end>
                        {words::WITHOUT_PRICES}
                    </button>
                </details>
            </Show>
        </section>
    }
    .into_any()
}

/// What it is made of, or what has no price yet.
fn sums(state: OrderState) -> Option<AnyView> {
    let line = state.line();
    state.worked(|worked| {
        let notices = worked.cost.notices.iter().map(notice).collect_view();
        match &worked.cost.priced {
            Some(priced) => view! {
                {priced.lines.get(line).map(parts)}
                {fair(priced)}
                {notices}
            }
            .into_any(),
            None => view! {
                <p>
                    {words::no_price(&worked.cost.missing)} " "
                    <button class="word" on:click=move |_| state.nav.open_area(AreaId::SHELF)>
                        {words::DESCRIBE_YOURS}
                    </button>
                </p>
            }
            .into_any(),
        }
    })
}

fn parts(price: &PiecePrice) -> AnyView {
    let time = price.time.cut + price.time.sift + price.time.load + price.time.mount;
    let rows = [
        ("Glass", price.glass),
        ("Powder", price.powder),
        ("Stem and joint", price.stem),
        ("Shelf paper, separator", price.consumables),
        ("Energy", price.energy),
        ("Your time", time),
        ("Overhead", price.overhead),
        ("Breakage", price.breakage),
        ("Each", price.each),
    ];
    let rows = rows.map(|(what, sum)| {
        view! {
            <div class:sum=what == "Each">
                <dt>{what}</dt>
                <dd>{words::money(sum)}</dd>
            </div>
        }
    });
    view! { <dl class="order-sums">{rows.collect_view()}</dl> }.into_any()
}

fn fair(priced: &Priced) -> Option<AnyView> {
    let pieces = priced.fair?.pieces;
    Some(view! { <p class="aside">{words::fair_pays(pieces)}</p> }.into_any())
}
