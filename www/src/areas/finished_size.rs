//! The size of the finished piece, as the customer reads it.

use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::words;
use leptos::prelude::*;

/// The size of the finished piece in the units shown; nothing before it is known.
pub fn finished_size(results: Results, preferences: Preferences) -> String {
    let size = results.ticket.read().as_ref().map(words::size);
    size.map_or_else(String::new, |size| preferences.text(&size))
}
