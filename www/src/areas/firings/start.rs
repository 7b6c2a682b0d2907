//! When the kiln is switched on, typed over where it stands.

use super::state::ProgramsState;
use crate::controls::number::Number;
use crate::fields::types::Unit;
use crate::state::kilns::USUAL_START;
use crate::words;
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// Times of the day, minutes past midnight, by quarters of an hour.
const DAY: Limit = Limit { least: 0.0, most: 1439.0, step: 15.0, usual: USUAL_START, by_ratio: false };

/// The time.
#[component]
pub fn StartTime() -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let start = state.kilns.start;
    view! {
        <Number
            name=Signal::stored(words::STARTS_AT.to_owned())
            unit=Unit::Clock
            limit=DAY
            value=Signal::derive(move || Some(start.get()))
            yours=Signal::stored(true)
            set=Callback::new(move |minutes| state.kilns.start_at(minutes))
            usual=Callback::new(move |()| state.kilns.start_at(USUAL_START))
            said=state.said
        />
    }
}
