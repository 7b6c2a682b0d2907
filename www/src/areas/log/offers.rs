//! What a firing has to teach: energy and cooling for the kiln, what broke for the prices. It offers itself, and is taken over only when it is
//! pressed.

use crate::model::ids::LogId;
use crate::state::fired::Fired;
use crate::state::kilns::{KilnChoice, Kilns};
use crate::state::log::Log;
use crate::state::orders::Orders;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::kiln::data::{Kiln, Metered};
use dappledome::kiln::firings::Firings;
use dappledome::kiln::taught::leaks;
use dappledome::orders::limits::BREAKAGE;
use dappledome::recipe::Recipe;
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;
use web_sys::MouseEvent;

/// Energies that differ by less than this share are the same: a meter is read to a tenth.
const SAME_ENERGY: f64 = 0.02;
/// Nobody stands beside a kiln that cools: openings that differ by less than this, minutes, are the same.
const SAME_MINUTES: f64 = 15.0;
/// Shares that differ by less than this are the same.
const SAME_SHARE: f64 = 0.005;

/// The offers of an entry.
pub fn offers(log: Log, id: LogId) -> AnyView {
    view! { <div class="log-offers">{energy(log, id)}{cooling(log, id)}{breakage(log)}</div> }.into_any()
}

/// What was found, the word that takes it over, and what there is to say of that.
fn offer(found: String, take: impl Fn(MouseEvent) + 'static, said: RwSignal<Option<String>>) -> AnyView {
    view! {
        <p>
            {found}
            " "
            <button class="word" on:click=take>{words::TAKE_IT_OVER}</button>
            <span class="refused" role="alert">{move || said.get()}</span>
        </p>
    }
    .into_any()
}

/// The energy, for the kiln. What it says of the piece that was fired holds in proportion for the one on the table.
fn energy(log: Log, id: LogId) -> AnyView {
    let (kilns, fired) = (expect_context::<Kilns>(), expect_context::<Fired>());
    let said = RwSignal::new(None::<String>);
    let take = move |_| {
        let Some((was, asked, firing, _)) = untrack(|| read(log, id)) else { return };
        let Some(now) = untrack(|| fired.program(firing)) else { return };
        let kwh = (now.kwh * was / asked * 10.0).round() / 10.0;
        let taken = kilns.describe(|kiln| kiln.metered = Some(Metered { firing, kwh }));
        if taken.is_ok() {
            // Another mark on it makes no entry worse.
            let _ = log.edit(id, |entry| entry.energy_taken = true);
        }
        said.set(taken.err());
    };
    (move || {
        let (was, asked, _, taken) = read(log, id)?;
        if taken {
            return Some(view! { <p role="status">{words::TAKEN}</p> }.into_any());
        }
        if (was - asked).abs() < asked * SAME_ENERGY {
            return None;
        }
        if kilns.chosen.get() != KilnChoice::Own {
            return Some(view! { <p>{words::took_guessed(was, asked)}</p> }.into_any());
        }
        Some(offer(words::took(was, asked), take, said))
    })
    .into_any()
}

/// When it could be opened, for the kiln: how much its walls let through. Readings with the lid shut say more than that, so where there
/// are some they stand.
fn cooling(log: Log, id: LogId) -> AnyView {
    let kilns = expect_context::<Kilns>();
    let said = RwSignal::new(None::<String>);
    let take = move |_| {
        let fired =
            untrack(|| log.with(id, |entry| (entry.recipe.clone(), entry.firing, entry.opened_later())));
        let Some((recipe, firing, Some(later))) = fired else { return };
        let kiln = kilns.kiln.get_untracked();
        let Some(found) = told_by(&recipe, firing, &kiln, later) else {
            said.set(Some(words::NO_COOLING.into()));
            return;
        };
        let taken = kilns.describe(|kiln| kiln.leaks = Some(found));
        if taken.is_ok() {
            // Another mark on it makes no entry worse.
            let _ = log.edit(id, |entry| entry.cooling_taken = true);
        }
        said.set(taken.err());
    };
    (move || {
        let (later, taken) = log.with(id, |entry| Some((entry.opened_later()?, entry.cooling_taken)))??;
        if taken {
            return Some(view! { <p role="status">{words::COOLING_TAKEN}</p> }.into_any());
        }
        if later.abs() < SAME_MINUTES || !kilns.kiln.read().cooling.is_empty() {
            return None;
        }
        if kilns.chosen.get() != KilnChoice::Own {
            return Some(view! { <p>{words::opened_later_guessed(later)}</p> }.into_any());
        }
        Some(offer(words::opened_later(later), take, said))
    })
    .into_any()
}

/// How much the walls of a kiln let through, if a firing in it could be opened so many minutes later than reckoned.
fn told_by(recipe: &Recipe, firing: Firing, kiln: &Kiln, later: f64) -> Option<f64> {
    let plan = Plan::new(recipe).ok()?.plan;
    let programs = Firings::new(&plan, kiln).ok()?.programs;
    let program = programs.iter().find(|program| program.firing == firing)?;
    leaks(&plan, kiln, program, program.hours + later / 60.0)
}

/// What the meter said, what was asked, of which firing, and whether it was taken over.
fn read(log: Log, id: LogId) -> Option<(f64, f64, Firing, bool)> {
    log.with(id, |entry| Some((entry.was.kwh?, entry.asked.kwh?, entry.firing, entry.energy_taken)))?
}

/// What broke in all firings, for the prices.
fn breakage(log: Log) -> AnyView {
    let orders = expect_context::<Orders>();
    let said = RwSignal::new(None::<String>);
    let share = move || {
        let (broken, all) = log.broken()?;
        let share = (f64::from(broken) / f64::from(all)).min(BREAKAGE.most);
        Some((broken, all, (share * 100.0).round() / 100.0))
    };
    let take = move |_| {
        let Some((_, _, share)) = untrack(share) else { return };
        let taken = orders.edit_bench(words::did::BREAKAGE, |bench| {
            if let Some(prices) = &mut bench.prices {
                prices.breakage = share;
            }
        });
        said.set(taken.err());
    };
    (move || {
        let reckoned = orders.bench.read().prices.as_ref().map(|prices| prices.breakage)?;
        let (broken, all, share) = share()?;
        let differs = (share - reckoned).abs() > SAME_SHARE;
        differs.then(|| offer(words::broke(broken, all, reckoned), take, said))
    })
    .into_any()
}
