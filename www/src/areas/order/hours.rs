//! The maker's days and hours.

use super::bench::{Field, numbers};
use super::state::OrderState;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::fields::types::Unit;
use crate::words;
use dappledome::base::units::Minutes;
use dappledome::orders::bench::Bench;
use dappledome::orders::limits::{self, A_DAY, CURE};
use dappledome::orders::model::{StepMinutes, Workday};
use leptos::prelude::*;

const ALL: [Workday; 7] = [
    Workday::Monday,
    Workday::Tuesday,
    Workday::Wednesday,
    Workday::Thursday,
    Workday::Friday,
    Workday::Saturday,
    Workday::Sunday,
];

/// Sets the minutes of a step; none takes them back to what they usually are.
fn set_step(bench: &mut Bench, to: Option<f64>, of: fn(&mut StepMinutes) -> &mut Minutes) {
    let usual = *of(&mut StepMinutes::default());
    *of(&mut bench.work.minutes) = to.map_or(usual, Minutes);
}

/// Minutes of hand work by step, as the costs show them too.
pub const HOURS: [Field; 6] = [
    Field {
        label: words::HAND_WORK_A_DAY,
        unit: Unit::Minutes,
        limit: A_DAY,
        get: |bench| Some(bench.work.a_day.0),
        set: |bench, to| bench.work.a_day = Minutes(to.unwrap_or(A_DAY.usual)),
    },
    Field {
        label: "Cutting one",
        unit: Unit::Minutes,
        limit: limits::STEP,
        get: |bench| Some(bench.work.minutes.cut.0),
        set: |bench, to| set_step(bench, to, |minutes| &mut minutes.cut),
    },
    Field {
        label: "Sifting and dabbing one",
        unit: Unit::Minutes,
        limit: limits::STEP,
        get: |bench| Some(bench.work.minutes.sift.0),
        set: |bench, to| set_step(bench, to, |minutes| &mut minutes.sift),
    },
    Field {
        label: "Loading one, each time",
        unit: Unit::Minutes,
        limit: limits::STEP,
        get: |bench| Some(bench.work.minutes.load.0),
        set: |bench, to| set_step(bench, to, |minutes| &mut minutes.load),
    },
    Field {
        label: "Mounting one",
        unit: Unit::Minutes,
        limit: limits::STEP,
        get: |bench| Some(bench.work.minutes.mount.0),
        set: |bench, to| set_step(bench, to, |minutes| &mut minutes.mount),
    },
    Field {
        label: "Days of rest once mounted",
        unit: Unit::Count,
        limit: CURE,
        get: |bench| Some(bench.work.cure_days.into()),
        set: |bench, to| bench.work.cure_days = to.unwrap_or(CURE.usual) as u32,
    },
];

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let day = move |day: Workday| {
        let chosen = move || state.orders.bench.with(|bench| bench.work.days.contains(&day));
        let choose = move |()| {
            state.edit_bench(words::DID_HOURS, |bench| {
                let days = &mut bench.work.days;
                let all = ALL.into_iter().filter(|one| days.contains(one) != (*one == day)).collect();
                *days = all;
            });
        };
        let name = words::WEEKDAYS[day as usize];
        view! { <ChoiceOption word=name chosen=Signal::derive(chosen) choose=Callback::new(choose) /> }
    };
    let by_day = move || state.orders.bench.with(|bench| bench.work.fires_by_day);
    let fire = move |()| {
        state.edit_bench(words::DID_HOURS, |bench| bench.work.fires_by_day = !bench.work.fires_by_day);
    };
    view! {
        <section class="order-pane" aria-label=words::YOUR_HOURS>
            <h3>{words::YOUR_HOURS}</h3>
            <Choice label=words::YOUR_HOURS>
                {ALL.map(day).collect_view()}
                <ChoiceOption word=words::FIRES_BY_DAY chosen=Signal::derive(by_day) choose=Callback::new(fire) />
            </Choice>
            <dl class="order-numbers">{numbers(state, words::DID_HOURS, &HOURS)}</dl>
        </section>
    }
    .into_any()
}
