//! The pieces of the shown line: each layout, the spare ones said, and the ways to take others.

use super::bench::number;
use super::state::OrderState;
use crate::controls::picture::Picture;
use crate::fields::types::Unit;
use crate::model::slots::PictureSlot;
use crate::services::ordering::Pick;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::orders::{begin, limits, pieces};
use dappledome::recipe::limits as recipe_limits;
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// Any seed.
const SEED: Limit = Limit { least: 0.0, most: u32::MAX as f64, step: 1.0, usual: 1.0, by_ratio: false };
/// More than these are not drawn: the rest are told by number.
const DRAWN: usize = 60;

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let seeds = Memo::new(move |_| {
        let line = state.line();
        let seeds = state.of_line(|line| line.seeds.iter().map(|seed| seed.0).collect::<Vec<_>>());
        (line, seeds.unwrap_or_default())
    });
    let spare_from = Memo::new(move |_| state.of_line(|line| line.count as usize).unwrap_or(0));
    let discs = move || {
        let (line, seeds) = seeds.get();
        let all = seeds.iter().take(DRAWN).enumerate();
        all.map(|(at, seed)| disc(state, (line, at, Seed(*seed)), spare_from)).collect_view()
    };
    let made = move || {
        let (line, wanted) = (state.line(), spare_from.get());
        let made = state.orders.with(|order| pieces::made(order).get(line).copied()).flatten().unwrap_or(0);
        words::made_and_sold(made, wanted as u32)
    };
    view! {
        <section class="order-pane order-pieces" aria-label=words::PIECES_OF_ORDER>
            <h3>{words::PIECES_OF_ORDER} " " <span class="second">{made}</span></h3>
            <ul class="order-discs">{discs}</ul>
            <div class="order-words">{counts(state)} {ways(state)}</div>
        </section>
    }
    .into_any()
}

fn disc(state: OrderState, (line, at, seed): (usize, usize, Seed), spare_from: Memo<usize>) -> AnyView {
    let spare = move || at >= spare_from.get();
    view! {
        <li>
            <button
                class="order-disc"
                aria-label=move || words::ordered_piece(seed, spare())
                aria-pressed=move || (state.pressed.get() == at).to_string()
                on:click=move |_| state.pressed.set(at)
            >
                <span class="round">
                    <Picture of=PictureSlot::Ordered(line, seed) />
                </span>
                {seed.0.to_string()}
                <span class="second">{move || spare().then_some(words::SPARE)}</span>
            </button>
        </li>
    }
    .into_any()
}

/// How many, and how many spare ones.
fn counts(state: OrderState) -> AnyView {
    let count = move || state.of_line(|line| line.count.into());
    let want = move |to: Option<f64>| {
        let at = untrack(|| state.line());
        let to = to.unwrap_or(limits::COUNT.usual) as u32;
        state.edit(words::DID_COUNT, |order| begin::want(order, at, to));
    };
    let spare = move || state.orders.with(|order| order.spare_per_ten.into());
    let want_spare = move |to: Option<f64>| {
        let to = to.unwrap_or(recipe_limits::SPARE.usual) as u32;
        state.edit(words::DID_COUNT, |order| begin::want_spares(order, to));
    };
    view! {
        {number(state, words::TO_SELL.into(), (Unit::Count, limits::COUNT), count, want)}
        " "
        {words::TO_SELL}
        ", "
        {number(state, words::SPARE_PER_TEN.into(), (Unit::Count, recipe_limits::SPARE), spare, want_spare)}
        " "
        {words::SPARE_PER_TEN}
    }
    .into_any()
}

/// The ways to take other layouts.
fn ways(state: OrderState) -> AnyView {
    let change = move |to: Option<Seed>| {
        let (line, at) = (untrack(|| state.line()), state.pressed.get_untracked());
        state.edit(words::DID_LAYOUTS, |order| {
            let Some(line) = order.lines.get_mut(line) else { return };
            let new = to.unwrap_or_else(|| begin::next(&line.seeds));
            if let Some(seed) = line.seeds.get_mut(at) {
                *seed = new;
            }
        });
    };
    let pressed =
        move || state.of_line(|line| line.seeds.get(state.pressed.get()).map(|seed| seed.0.into())).flatten();
    let pick = move |kind: Pick, word: &'static str| {
        view! {
            <button class="word" on:click=move |_| state.ordering.pick_anew(untrack(|| state.line()), kind)>
                {word}
            </button>
        }
    };
    view! {
        <button class="word" on:click=move |_| change(None)>{words::SWAP_ONE}</button>
        {words::ITS_SEED}
        " "
        {number(
            state,
            words::ITS_SEED.into(),
            (Unit::Count, SEED),
            pressed,
            move |to| change(to.map(|to| Seed(to as u32))),
        )}
        {pick(Pick::Nearest, words::AND_THE_NEAREST)}
        {pick(Pick::Different, words::DIFFERENT_LAYOUTS)}
    }
    .into_any()
}
