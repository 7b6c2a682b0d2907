//! An open entry: pictures, what was set and was, and the maker's own words.

use super::offers::offers;
use super::outcomes::outcomes;
use super::photo::photos;
use crate::dom::clock;
use crate::model::ids::{LogId, PieceId};
use crate::services::storage;
use crate::state::against::Against;
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::keep::log::{LogEntry, MOST_LETTERS};
use dappledome::orders::model::Date;
use dappledome::recipe::piece::Piece;
use js_sys::Array;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::File;

/// The entry.
pub fn entry_view(log: Log, id: LogId) -> AnyView {
    let title = move || log.with(id, |entry| words::named(&entry.recipe.title));
    let under = move || log.with(id, |entry| words::fired_for(entry, clock::today()));
    let name = untrack(title).unwrap_or_default();
    view! {
        <article class="log-entry" aria-label=name>
            <div class="log-head">
                <button class="word log-back" on:click=move |_| log.open.set(None)>{words::LOG}</button>
                <h3>{title}</h3>
                {taken_up(log, id)}
                <button class="word" on:click=move |_| log.remove(id)>{words::TAKE_AWAY}</button>
            </div>
            <p class="aside">{under}</p>
            {photos(log, id)}
            {outcomes(log, id)}
            {fired_on(log, id)}
            {offers(log, id)}
            {note(log, id, words::WHAT_DIFFERED, |entry| &entry.differed, |entry, text| entry.differed = text)}
            {note(log, id, words::LOG_NEXT_TIME, |entry| &entry.next_time, |entry, text| entry.next_time = text)}
            <p class="aside">{words::NEXT_TIME_HELP}</p>
        </article>
    }
    .into_any()
}

/// The words that lay the piece on the table as it was fired: to work on it, or to hold it against its forecast.
fn taken_up(log: Log, id: LogId) -> AnyView {
    let (piece, against, nav) =
        (expect_context::<Workpiece>(), expect_context::<Against>(), expect_context::<Nav>());
    let hold = move |_| {
        if !untrack(|| log.with(id, |entry| lies_there(piece, entry))).unwrap_or(false) {
            take_up(log, id, piece);
        }
        spawn_local(async move {
            // Without its photo the area asks for one.
            let bytes = storage::photo(id.0).await.ok().flatten();
            let file = bytes
                .and_then(|bytes| File::new_with_u8_array_sequence(&Array::of1(&bytes), words::FIRED).ok());
            against.open(Some(id), file, nav);
        });
    };
    view! {
        <button class="word" on:click=move |_| take_up(log, id, piece)>{words::WORK_ON_IT}</button>
        <button class="word" on:click=hold>{words::HOLD_AGAINST}</button>
    }
    .into_any()
}

/// Whether it lies on the table already.
fn lies_there(piece: Workpiece, entry: &LogEntry) -> bool {
    piece.seed.get() == entry.seed && piece.recipe.with(|recipe| *recipe == entry.recipe)
}

/// Lays it on the table as a new piece, so that what became of it since stays as it is.
fn take_up(log: Log, id: LogId, piece: Workpiece) {
    if let Some((recipe, seed)) = untrack(|| log.with(id, |entry| (entry.recipe.clone(), entry.seed))) {
        piece.take_up(&words::opening(&recipe.title), None::<PieceId>, &Piece::new(recipe, seed));
    }
}

/// The day of the firing, to be typed.
fn fired_on(log: Log, id: LogId) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let day = move || log.with(id, |entry| entry.date.to_string());
    let take = move |event| {
        let wrong = match event_target_value(&event).trim().parse::<Date>() {
            Ok(date) => log.edit(id, |entry| entry.date = date).err(),
            Err(_) => Some(words::NOT_A_DAY.into()),
        };
        said.set(wrong);
    };
    view! {
        <p class="log-day">
            <label>
                <span class="second">{words::FIRED_ON}</span>
                " "
                <input class="typed" type="date" prop:value=day on:change=take />
            </label>
            <span class="refused" role="alert">{move || said.get()}</span>
        </p>
    }
    .into_any()
}

/// A field for the maker's own words, kept as they are written.
fn note(
    log: Log,
    id: LogId,
    head: &'static str,
    get: fn(&LogEntry) -> &String,
    set: fn(&mut LogEntry, String),
) -> AnyView {
    let text = untrack(|| log.with(id, |entry| get(entry).clone())).unwrap_or_default();
    // The field takes no more letters than an entry does: nothing can be wrong with them.
    let write = move |event| drop(log.edit(id, |entry| set(entry, event_target_value(&event))));
    view! {
        <h4>{head}</h4>
        <textarea
            rows="2"
            maxlength=MOST_LETTERS.to_string()
            aria-label=head
            prop:value=text
            on:input=write
        ></textarea>
    }
    .into_any()
}
