//! The kiln loads: where pieces lie on the shelf, how many at once, how long and with how much energy.

use super::drawing::{Disc, drawing};
use super::head::notice;
use super::state::OrderState;
use crate::dom::clock;
use crate::model::ids::AreaId;
use crate::state::log::Log;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::keep::log::LogEntry;
use dappledome::kiln::data::Shelf;
use dappledome::orders::loads::Batch;
use dappledome::orders::model::{Order, What};
use leptos::prelude::*;

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let batches = move || {
        let kiln = state.kilns.kiln.get();
        let disc = state.of_line(|line| line.recipe.blank.diameter.0).unwrap_or(0.0);
        state.worked(|worked| {
            worked.loads.batches.iter().map(|batch| one(state, kiln.shelf, disc, batch)).collect_view()
        })
    };
    let notices = move || state.worked(|worked| worked.loads.notices.iter().map(notice).collect_view());
    let name = move || words::kiln_within(&state.kilns.kiln.read().name);
    view! {
        <section class="order-pane" aria-label=words::KILN_LOADS>
            <h3>
                {words::KILN_LOADS} " "
                <span class="second">
                    {words::IN_KILN} " "
                    <button class="word" on:click=move |_| state.nav.open_area(AreaId::SHELF)>
                        {name}
                    </button>
                </span>
            </h3>
            <div class="order-drawings">{batches}</div>
            {notices}
        </section>
    }
    .into_any()
}

/// Writes the loads of a batch up in the log, each by a word of its own.
fn log_loads(state: OrderState, batch: &Batch) -> AnyView {
    let log = expect_context::<Log>();
    let of = batch.loads.len();
    let word = |load: usize| {
        let batch = batch.clone();
        let write = move |_| {
            let line = untrack(|| state.line());
            let when = (state.kilns.start.get_untracked(), clock::today());
            let entry = |order: &Order| LogEntry::of_load(order, line, &batch, load, when);
            if let Some(entry) = untrack(|| state.orders.with(entry)).flatten() {
                log.write_up(entry);
                state.nav.open_area(AreaId::LOG);
            }
        };
        view! {
            <button class="word" on:click=write>
                {words::log_load(load, of)}
            </button>
            " "
        }
    };
    (0..of).map(word).collect_view().into_any()
}

fn one(state: OrderState, shelf: Shelf, disc: f64, batch: &Batch) -> AnyView {
    let across = if batch.firing == Firing::Slump { disc.min(batch.across.0) } else { batch.across.0 };
    let discs: Vec<Disc> = batch.places.iter().map(|[x, y]| (*x, *y, across)).collect();
    let rim = (across < batch.across.0).then_some(batch.across.0);
    let loads: Vec<u32> = batch.loads.iter().map(|load| load.iter().map(|(_, count)| count).sum()).collect();
    view! {
        <figure>
            {drawing(shelf, &discs, rim)}
            <figcaption>
                <b>{words::load_words(What::Fire(batch.firing), &loads)}</b>
                <br />
                {words::holds(batch.holds, batch.molds_limit)}
                ", "
                {words::hours_long(batch.hours)}
                ", "
                {words::kwh(batch.kwh)}
                <br />
                {log_loads(state, batch)}
            </figcaption>
        </figure>
    }
    .into_any()
}
