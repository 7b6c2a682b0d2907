//! The open ticket: pieces, spare ones, and what powder weighs and loses.

use crate::areas::sheet::details::{Details, Fields};
use crate::controls::ticket_table::TicketTable;
use crate::fields::others::{BATCH, BATCH_DETAILS};
use crate::fields::types::Target;
use crate::services::ordering::Ordering;
use crate::words;
use leptos::prelude::*;

/// What the ticket is for, and its numbers for one piece and for all.
#[component]
pub fn BatchBody() -> impl IntoView {
    let ordering = Ordering::of_contexts();
    view! {
        <div class="body">
            <Fields fields=BATCH target=Target::Whole />
            <TicketTable />
            <div class="buttons">
                <button class="button main" on:click=move |_| ordering.these()>
                    {words::ORDER_THESE}
                </button>
            </div>
            <Details lists=&[BATCH_DETAILS] target=Target::Whole />
        </div>
    }
}
