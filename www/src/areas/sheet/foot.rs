//! The sheet's foot: the totals. The place of the cost is kept free.

use super::state::{StepItems, toggle_ticket};
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::base::shown::Units;
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;

/// The totals. Where there is no room for the words in the head, they themselves open the ticket.
#[component]
pub fn Foot() -> impl IntoView {
    let (nav, items) = (expect_context::<Nav>(), expect_context::<StepItems>());
    view! {
        <footer class="foot" aria-label=words::TICKET>
            <dl>
                <Total label=words::POWDER_TO_WEIGH number=powder />
                <Total label=words::FINISHED number=words::finished />
                <Total label=words::GLASS number=words::discs />
                <Total label=words::KILN number=kiln />
            </dl>
            <button
                class="foot-whole"
                aria-label=words::TICKET
                aria-expanded=move || (nav.step.get() == Some(Step::Ticket)).to_string()
                on:click=move |_| toggle_ticket(nav, items)
            ></button>
        </footer>
    }
}

/// One total; unknown while the recipe cannot be made.
#[component]
fn Total(
    /// What it is.
    label: &'static str,
    /// Its number on a ticket.
    number: fn(&Ticket, Units) -> String,
) -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let said = move || {
        let works = piece.plan.read().works;
        results.ticket.with(|ticket| match ticket {
            Some(ticket) if works => number(ticket, preferences.units.get()),
            _ => words::UNKNOWN.into(),
        })
    };
    view! {
        <div class="total">
            <dt>{label}</dt>
            <dd>{said}</dd>
        </div>
    }
}

fn powder(ticket: &Ticket, _: Units) -> String {
    words::grams(ticket.powder_to_weigh().0)
}

fn kiln(ticket: &Ticket, _: Units) -> String {
    words::kiln_total(ticket)
}
