//! The whole order: rows and days above, the detail under them, and its foot.

use super::axis::Axis;
use super::calendar::Calendar;
use super::foot::Foot;
use super::head::Head;
use super::remedies::Remedies;
use super::rows::rows;
use super::state::{OrderState, Part};
use super::table::Table;
use super::{costs, cut, hours, loads, pieces, stems, today, weigh};
use crate::controls::later::Later;
use crate::dom::clock;
use crate::dom::window::is_narrow;
use crate::words;
use dappledome::orders::worked::Worked;
use leptos::prelude::*;

/// The whole area.
#[component]
pub fn OrderArea() -> impl IntoView {
    let state = OrderState::new();
    let there = Memo::new(move |_| state.orders.with(|_| ()).is_some());
    let narrow = is_narrow();
    let at_bench = Memo::new(move |_| today::is_shown(state, narrow));
    view! {
        <section class="area order" aria-label=words::ORDER_AREA tabindex="-1">
            <Show when=move || there.get() fallback=move || nothing(state)>
                <Show when=move || !at_bench.get() fallback=move || today::bench(state)>
                    <Head state />
                    <Later>
                        <Upper state />
                    </Later>
                    <p class="order-said" role="status">{move || state.said.get()}</p>
                    <Later>
                        <div class="order-detail">{move || detail(state)}</div>
                    </Later>
                    <Later>
                        <Foot state />
                    </Later>
                </Show>
            </Show>
        </section>
    }
}

/// There is no order.
fn nothing(state: OrderState) -> AnyView {
    view! {
        <div class="order-nothing">
            <p>{words::NOTHING_ORDERED}</p>
            <button class="button" on:click=move |_| state.nav.close_area()>{words::CLOSE_ORDER}</button>
        </div>
    }
    .into_any()
}

/// Rows and days, and what there is to say of them.
#[component]
fn Upper(
    /// The order.
    state: OrderState,
) -> impl IntoView {
    let shown = Memo::new(move |_| {
        let (at, units) = (state.line(), state.preferences.units.get());
        let bench = state.orders.bench.read();
        let worked = state.orders.worked.get();
        state.of_line(|line| rows(line, at, &bench.stock, worked.as_deref(), units)).unwrap_or_default()
    });
    let axis = Memo::new(move |_| {
        let (due, line) = (state.orders.with(|order| order.due).flatten(), state.line());
        let bench = state.orders.bench.read();
        let axis =
            |worked: &Worked| Some(Axis::new(worked.days.as_ref()?, due, &bench, line, clock::today()));
        state.worked(axis).flatten().unwrap_or_default()
    });
    view! {
        <div class="order-upper">
            <Table state rows=shown />
            <Calendar state rows=shown axis />
            <Remedies state axis />
        </div>
    }
}

fn detail(state: OrderState) -> AnyView {
    match state.part.get() {
        Part::Pieces => view! {
            {pieces::pane(state)}
            {costs::pane(state)}
        }
        .into_any(),
        Part::Cut => view! {
            {cut::pane(state)}
            {loads::pane(state)}
        }
        .into_any(),
        Part::Kiln => loads::pane(state),
        Part::Weigh => weigh::pane(state),
        Part::Hours => hours::pane(state),
        Part::Stems => stems::pane(state),
    }
}
