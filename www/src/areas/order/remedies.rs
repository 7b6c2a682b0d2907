//! What sets the pace, whether it is late, and what would help, as buttons.

use super::axis::Axis;
use super::state::{OrderState, Part};
use crate::model::ids::AreaId;
use crate::model::records::OrderRecord;
use crate::words;
use dappledome::base::notice::Severity;
use dappledome::orders::days::{Change, Days, Earlier, What};
use dappledome::orders::model::{Date, Workday};
use leptos::prelude::*;

/// Hand work that a longer day has more, minutes: as the engine reckons with.
const LONGER: f64 = 120.0;

/// What there is to say of the days.
#[component]
pub fn Remedies(
    /// The order.
    state: OrderState,
    /// Its days as they are drawn.
    axis: Memo<Axis>,
) -> impl IntoView {
    let said = move || {
        let worked = state.orders.worked.get();
        match worked.as_ref().and_then(|worked| worked.days.clone()) {
            Some(days) => of_days(state, &days, axis.read().beyond),
            None => {
                let text = worked.as_ref().map_or(words::WORKING_OUT, |_| "");
                view! { <p class="second">{text}</p> }.into_any()
            }
        }
    };
    view! { <div class="order-remedies" aria-live="polite">{said}</div> }
}

fn of_days(state: OrderState, days: &Days, beyond: Option<(Date, usize)>) -> AnyView {
    let nights = days.doings.iter().filter(|doing| matches!(doing.what, What::Fire(_))).count();
    let late = days.in_hand.is_some_and(|days| days < 0);
    let pressing: Vec<String> = days
        .notices
        .iter()
        .filter(|notice| notice.severity != Severity::Note)
        .map(|notice| notice.what.clone())
        .collect();
    let (ready, minutes) = (days.ready, days.hand_work.0);
    let earlier = days.earlier.iter().enumerate();
    let earlier = earlier.filter_map(|(at, earlier)| remedy(state, *earlier, late && at == 0)).collect_view();
    let due = late.then(|| {
        view! {
            <button class="button" on:click=move |_| state.edit(words::DID_ORDER, |order| order.due = Some(ready))>
                {words::due_on(ready)}
            </button>
        }
    });
    let wished = state.orders.with(|order| !order.wishes.is_empty()).unwrap_or(false).then(|| {
        view! {
            <button class="word" on:click=move |_| state.edit(words::DID_DAYS, |order| order.wishes.clear())>
                {words::LET_GO_OF_DAYS}
            </button>
        }
    });
    let ahead = state.orders.with(|order| order.ahead.is_some()).unwrap_or(false).then(|| {
        view! {
            <button class="word" on:click=move |_| state.edit(words::DID_DAYS, |order| order.ahead = None)>
                {words::IN_ITS_TURN}
            </button>
        }
    });
    let beside = days
        .others
        .iter()
        .map(|other| words::beside(&other.title, other.ready))
        .collect::<Vec<_>>()
        .join(" ");
    view! {
        <p>
            <b class:late=late>{if late { pressing.join(" ") } else { words::ready(days) }}</b>
            " "
            {words::pace(days.pace, nights)}
            " "
            <button class="word" aria-expanded=move || (state.part.get() == Part::Hours).to_string() on:click=move |_| state.show(Part::Hours)>
                {words::hand_work(minutes)}
            </button>
            " "
            {wished}
            " "
            {ahead}
        </p>
        <p class="aside">{beyond.map(|(last, later)| words::beyond(last, later, ready))}</p>
        <div class="buttons">{earlier}{due}</div>
        <p class="aside">{beside}</p>
    }
    .into_any()
}

/// A change as a button: one that the maker can make here, or the way to where it is made.
fn remedy(state: OrderState, earlier: Earlier, main: bool) -> Option<AnyView> {
    let bench = |change: fn(&mut dappledome::orders::model::Work)| {
        Some(Callback::new(move |()| state.edit_bench(words::DID_HOURS, |bench| change(&mut bench.work))))
    };
    let press = match earlier.change {
        Change::FireByDay => bench(|work| work.fires_by_day = true),
        Change::Saturdays => bench(|work| work.days.push(Workday::Saturday)),
        Change::LongerDays => bench(|work| work.a_day.0 += LONGER),
        Change::OneMoreMold => Some(Callback::new(move |()| state.nav.open_area(AreaId::SHELF))),
        Change::BeforeOthers => Some(Callback::new(move |()| {
            let ahead = |record: &OrderRecord| record.order.ahead;
            let most = state.orders.list.with_untracked(|list| list.iter().filter_map(ahead).max());
            let first = most.unwrap_or(0).saturating_add(1);
            state.edit(words::DID_DAYS, |order| order.ahead = Some(first));
        })),
    }?;
    Some(
        view! {
            <button class="button" class:main=main on:click=move |_| press.run(())>
                {words::earlier(&earlier)}
            </button>
        }
        .into_any(),
    )
}
