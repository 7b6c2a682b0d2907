//! The ticket as a table: what to weigh, cut and set, for one piece and for all side by side.

use super::ticket_lines::{TicketLine, lines};
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The table; empty before the numbers are known.
#[component]
pub fn TicketTable() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let heads = move || results.ticket.read().as_ref().map(words::all_pieces);
    let lines = Memo::new(move |_| {
        let made = piece.made();
        results.ticket.read().as_ref().map(|ticket| lines(ticket, &made.0)).unwrap_or_default()
    });
    let spares = move || words::how_spares_count(&piece.recipe.read());
    view! {
        <div class="ticket-table" class:for-one=move || results.ticket.with(|t| t.as_ref().is_none_or(|t| t.pieces == 1))>
            <table>
                <thead>
                    <tr>
                        <td></td>
                        <th scope="col">{words::ONE_PIECE}</th>
                        <th scope="col" class="for-all">{heads}</th>
                    </tr>
                </thead>
                <tbody>
                    <For each=move || lines.get() key=Clone::clone let:line>
                        <TableRow line />
                    </For>
                </tbody>
            </table>
            <p class="aside">{spares}</p>
        </div>
    }
}

/// A line of it.
#[component]
fn TableRow(
    /// What it says.
    line: TicketLine,
) -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    match line {
        TicketLine::Head(head) => view! {
            <tr class="ticket-head">
                <th scope="rowgroup" colspan="3">{head}</th>
            </tr>
        }
        .into_any(),
        TicketLine::Number { what, detail, one, all } => view! {
            <tr>
                <th scope="row">
                    {move || preferences.text(&what)} " "
                    <span class="second">{move || preferences.text(&detail)}</span>
                </th>
                <td>{one}</td>
                <td class="for-all">{all}</td>
            </tr>
        }
        .into_any(),
    }
}
