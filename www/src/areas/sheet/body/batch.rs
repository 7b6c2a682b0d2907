//! The open ticket: pieces, spare ones, and what powder weighs and loses.

use crate::areas::sheet::details::{Details, Fields};
use crate::controls::ticket_table::TicketTable;
use crate::fields::others::{BATCH, BATCH_DETAILS};
use crate::fields::types::Target;
use leptos::prelude::*;

/// What the ticket is for, and its numbers for one piece and for all.
#[component]
pub fn BatchBody() -> impl IntoView {
    view! {
        <div class="body">
            <Fields fields=BATCH target=Target::Whole />
            <TicketTable />
            <Details lists=&[BATCH_DETAILS] target=Target::Whole />
        </div>
    }
}
