//! The firings that are found, the newest first.

use super::photo::forecast;
use crate::dom::clock;
use crate::model::ids::LogId;
use crate::state::log::Log;
use crate::words;
use dappledome::picture::view::Stage;
use leptos::prelude::*;

/// The list.
pub fn list_view(log: Log, found: Signal<Vec<LogId>>) -> AnyView {
    view! {
        <ul class="log-list" role="list" aria-label=words::LOG>
            <For each=move || found.get() key=|id| *id let:id>
                {item(log, id)}
            </For>
        </ul>
    }
    .into_any()
}

fn item(log: Log, id: LogId) -> AnyView {
    let title = move || log.with(id, |entry| words::named(&entry.recipe.title));
    let day = move || log.with(id, |entry| words::log_date(entry.date, clock::today()));
    let what = move || log.with(id, words::what_fired);
    let open = move || (log.open.get() == Some(id)).then_some("true");
    view! {
        <li>
            <button class="log-item" aria-current=open on:click=move |_| log.open.set(Some(id))>
                <span class="log-dome">{forecast(log, id, Stage::Domed)}</span>
                <span>
                    <b>{title}</b>
                    <span class="day">{day}</span>
                    <span class="day">{what}</span>
                </span>
            </button>
        </li>
    }
    .into_any()
}
