//! The log as a whole: its head with the search, the list, and the open entry beside it.

use super::entry::entry_view;
use super::list::list_view;
use super::search::has_words;
use crate::controls::cautions::CautionsWord;
use crate::controls::papers_kept::papers_kept;
use crate::controls::search::Search;
use crate::dom::clock;
use crate::model::ids::LogId;
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::words;
use leptos::prelude::*;

/// The area.
pub fn log_area() -> AnyView {
    let (log, nav) = (expect_context::<Log>(), expect_context::<Nav>());
    let search = RwSignal::new(String::new());
    let found = move || -> Vec<LogId> {
        let (today, list, search) = (clock::today(), log.list.read(), search.read());
        let found = list.iter().filter(|record| has_words(&record.entry, &search, today));
        found.map(|record| record.id).collect()
    };
    // A memo, so that an entry stays on the page while it is written in.
    let open =
        Memo::new(move |_| log.open.get().filter(|id| log.list.read().iter().any(|record| record.id == *id)));
    let said = move || {
        let all = log.list.read().len();
        match (all, found().len()) {
            (0, _) => words::NOTHING_FIRED.to_owned(),
            (_, 0) => words::NO_ENTRY_FOUND.to_owned(),
            (_, found) => words::firings_found(found, all, search.read().trim()),
        }
    };
    view! {
        <section class="area log" aria-label=words::LOG tabindex="-1">
            <div class="tray-top">
                <h2>{words::LOG}</h2>
                <Search name=words::SEARCH_LOG look_for=Callback::new(move |text| search.set(text)) />
                <span class="gap"></span>
                <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| nav.close_area()>{words::CLOSE_LOG}</button>
            </div>
            <p class="log-count" role="status">{said}</p>
            {papers_kept()}
            {gone(log)}
            <div class="log-body" class:reading=move || open.get().is_some()>
                {list_view(log, Signal::derive(found))}
                {move || {
                    let id = open.get()?;
                    Some(untrack(|| entry_view(log, id)))
                }}
            </div>
        </section>
    }
    .into_any()
}

/// What was taken away last, and the word that puts it back.
fn gone(log: Log) -> AnyView {
    (move || {
        let name = log.gone()?;
        Some(view! {
            <p class="log-count" role="status">
                {words::taken_away(&name)}
                " "
                <button class="word" on:click=move |_| log.put_back()>{words::PUT_BACK}</button>
            </p>
        })
    })
    .into_any()
}
