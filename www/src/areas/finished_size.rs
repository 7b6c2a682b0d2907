//! The size of the finished piece, as the customer reads it.

use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::words;
use leptos::prelude::*;

/// The size of the finished piece in the units shown; nothing before it is known.
pub fn finished_size(results: Results, preferences: Preferences) -> String {
    let ticket = results.ticket.read();
    ticket.as_ref().map_or_else(String::new, |ticket| words::size(ticket, preferences.units.get()))
}
