//! What a firing has to teach: the energy for the kiln, what broke for the prices. It offers itself, and is taken over only when it is
//! pressed.

use crate::model::ids::LogId;
use crate::state::fired::Fired;
use crate::state::kilns::{KilnChoice, Kilns};
use crate::state::log::Log;
use crate::state::orders::Orders;
use crate::words;
use dappledome::kiln::data::Metered;
use dappledome::orders::limits::BREAKAGE;
use leptos::prelude::*;

/// Energies that differ by less than this share are the same: a meter is read to a tenth.
const SAME_ENERGY: f64 = 0.02;
/// Shares that differ by less than this are the same.
const SAME_SHARE: f64 = 0.005;

/// The offers of an entry.
pub fn offers(log: Log, id: LogId) -> AnyView {
    view! { <div class="log-offers">{energy(log, id)}{breakage(log)}</div> }.into_any()
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
        Some(
            view! {
                <p>
                    {words::took(was, asked)}
                    " "
                    <button class="word" on:click=take>{words::TAKE_IT_OVER}</button>
                    <span class="refused" role="alert">{move || said.get()}</span>
                </p>
            }
            .into_any(),
        )
    })
    .into_any()
}

/// What the meter said, what was asked, of which firing, and whether it was taken over.
fn read(log: Log, id: LogId) -> Option<(f64, f64, dappledome::base::firing::Firing, bool)> {
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
        ((share - reckoned).abs() > SAME_SHARE).then(|| {
            view! {
                <p>
                    {words::broke(broken, all, reckoned)}
                    " "
                    <button class="word" on:click=take>{words::TAKE_IT_OVER}</button>
                    <span class="refused" role="alert">{move || said.get()}</span>
                </p>
            }
        })
    })
    .into_any()
}
