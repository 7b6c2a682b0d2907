//! Nothing lost: the piece on the table is kept as it is changed, and what is kept is never overwritten unseen.
//!
//! Saving waits until the hand rests; a piece that leaves the table is saved first. Other tabs are told, and a tab
//! whose piece was changed elsewhere takes the change over if it has none of its own, or else asks.

use super::dom::{always, on_window};
use super::history::Standing;
use super::state::{Bench, PieceId, Slip};
use super::store::{self, Fault, Saved, Stored, Whole};
use super::{drafts, pictured, words};
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use dappledome::recipe::piece::Piece;
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, Event, MessageEvent};

/// How long the hand must have rested before a change is saved.
const REST: Duration = Duration::from_millis(400);
/// How long until saving is tried again where it failed.
const RETRY: Duration = Duration::from_secs(5);
/// The name under which the tabs of one browser hear each other.
const CHANNEL: &str = "dappledome";

/// Whether the piece on the table is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum State {
    /// There is nothing to keep: a recipe that came with the program.
    Untouched,
    /// Since this time, ms since 1970.
    Since(f64),
    /// It was taken off the shelf, here or in another tab.
    Away,
    /// Another tab changed it at this time, and so did this one.
    Conflict(f64),
    /// It is not.
    Not(Fault),
}

/// A piece that was taken off the shelf.
#[derive(Clone, Debug)]
pub struct Gone {
    /// Which one.
    pub id: PieceId,
    /// Its name.
    pub title: String,
    /// All there was of it.
    pub whole: Whole,
}

/// What this tab knows to be stored of a piece.
struct Known {
    id: PieceId,
    /// None if it was taken away: then the text is what it was.
    revision: Option<u32>,
    changed: f64,
    text: String,
}

/// What is to be kept, and what is.
#[derive(Default)]
struct Desk {
    known: Vec<Known>,
    /// How the piece on the table stood when it was last looked at.
    latest: Option<Standing>,
    /// What waits to be saved, one standing for each piece.
    waiting: Vec<Standing>,
    saving: bool,
    timer: Option<TimeoutHandle>,
    channel: Option<BroadcastChannel>,
}

/// The keeper of pieces; copied freely, since it holds only handles.
#[derive(Clone, Copy)]
pub struct Keeping {
    /// Whether the piece on the table is kept.
    pub state: RwSignal<State>,
    /// Counted up whenever the shelf's contents change, in whatever tab.
    pub news: RwSignal<u32>,
    /// The piece whose small picture has just been kept.
    pub pictured: RwSignal<Option<PieceId>>,
    /// The pieces without a picture that the shelf has asked for, in the order of asking.
    pub wanted: RwSignal<Vec<(PieceId, Recipe, Seed)>>,
    /// What the shelf has to say.
    pub note: RwSignal<String>,
    /// What was taken off the shelf since the page was opened, the last one last.
    pub away: RwSignal<Vec<Gone>, LocalStorage>,
    desk: StoredValue<Desk, LocalStorage>,
}

impl Keeping {
    /// Nothing kept yet.
    pub fn new() -> Self {
        Self {
            state: RwSignal::new(State::Untouched),
            news: RwSignal::new(0),
            pictured: RwSignal::new(None),
            wanted: RwSignal::new(Vec::new()),
            note: RwSignal::new(String::new()),
            away: RwSignal::new_local(Vec::new()),
            desk: StoredValue::new_local(Desk::default()),
        }
    }

    fn desk<T>(&self, what: impl FnOnce(&mut Desk) -> T) -> T {
        let mut desk = self.desk.write_value();
        what(&mut desk)
    }

    /// Remembers what is stored of a piece.
    fn know(&self, id: PieceId, stored: &Stored) {
        self.learn(id, Some(stored.revision), stored.changed, &stored.text);
    }

    fn learn(&self, id: PieceId, revision: Option<u32>, changed: f64, text: &str) {
        self.desk(|desk| {
            desk.known.retain(|known| known.id != id);
            desk.known.push(Known { id, revision, changed, text: text.into() });
        });
    }

    /// The revision that this tab last saw of a piece.
    fn revision(&self, id: PieceId) -> Option<u32> {
        self.desk(|desk| desk.known.iter().find(|known| known.id == id).and_then(|known| known.revision))
    }

    /// Whether a text is what this tab knows to be stored, and how that is said.
    fn standing_of(&self, id: PieceId, text: &str) -> Option<State> {
        self.desk(|desk| {
            let known = desk.known.iter().find(|known| known.id == id && known.text == text)?;
            Some(if known.revision.is_some() { State::Since(known.changed) } else { State::Away })
        })
    }

    /// Tells the shelf, and the other tabs, that a piece was changed or taken away.
    pub fn tell(&self, id: PieceId) {
        self.news.update(|news| *news += 1);
        self.desk(|desk| {
            if let Some(channel) = &desk.channel {
                // A tab that hears nothing finds out when it saves.
                let _ = channel.post_message(&JsValue::from_f64(id.0 as f64));
            }
        });
    }

    /// Says how the piece on the table is kept.
    fn say(&self, state: State) {
        if self.state.get_untracked() != state {
            self.state.set(state);
        }
    }
}

/// Begins to keep what lies on the table, and lays there what lay there last unless the address brought a piece.
pub fn begin(bench: Bench) {
    listen_to_tabs(bench);
    always(move || {
        let id = bench.id.get();
        let piece =
            Piece { recipe: bench.recipe.get(), seed: bench.seed.get(), sisters: bench.sisters.get() };
        changed(bench, Standing { id, piece });
    });
    // A page that goes out of sight may be ended without another word.
    on_window("pagehide", move |_: &Event| hide(bench));
    on_window("visibilitychange", move |_: &Event| {
        if document().visibility_state() == web_sys::VisibilityState::Hidden {
            hide(bench);
        }
    });
    let brought = bench.id.get_untracked().is_some();
    if !brought && drafts::last().is_some() {
        // The welcome is for those who have been here never before.
        bench.lay_slip_aside();
    }
    spawn_local(async move {
        mend_drafts(bench).await;
        if !brought {
            lay_last(bench).await;
        }
    });
}

/// The piece on the table has changed, or is another one: then the one before is saved first.
fn changed(bench: Bench, now: Standing) {
    let other = bench.keep.desk(|desk| {
        let before = desk.latest.replace(now.clone());
        let other = before.as_ref().is_none_or(|before| before.id != now.id);
        if let Some(before) = before.filter(|_| other) {
            wait(desk, before);
        }
        other
    });
    if now.id.is_some() {
        save_in(bench, if other { Duration::ZERO } else { REST });
    }
}

/// Puts a standing among those that wait, in place of an older one of the same piece.
fn wait(desk: &mut Desk, standing: Standing) {
    desk.waiting.retain(|waiting| waiting.id != standing.id);
    desk.waiting.push(standing);
}

fn save_in(bench: Bench, time: Duration) {
    let timer = set_timeout_with_handle(move || save_now(bench), time).ok();
    let before = bench.keep.desk(|desk| std::mem::replace(&mut desk.timer, timer));
    if let Some(before) = before {
        before.clear();
    }
}

/// Saves what lies on the table, and whatever else waits.
pub fn save_now(bench: Bench) {
    let idle = bench.keep.desk(|desk| {
        if let Some(latest) = desk.latest.clone() {
            wait(desk, latest);
        }
        !std::mem::replace(&mut desk.saving, true)
    });
    if idle {
        spawn_local(save_all(bench));
    }
}

async fn save_all(bench: Bench) {
    while let Some(standing) = bench.keep.desk(|desk| desk.waiting.pop()) {
        if let Err(fault) = save(bench, standing.clone()).await {
            bench.keep.desk(|desk| {
                // What was changed meanwhile is newer.
                if !desk.waiting.iter().any(|waiting| waiting.id == standing.id) {
                    desk.waiting.push(standing);
                }
            });
            bench.keep.say(State::Not(fault));
            save_in(bench, RETRY);
            break;
        }
    }
    bench.keep.desk(|desk| desk.saving = false);
}

async fn save(bench: Bench, standing: Standing) -> Result<(), Fault> {
    let Standing { id: Some(id), piece } = standing else { return Ok(()) };
    let keep = bench.keep;
    let text = piece.write();
    let on_table = bench.id.get_untracked() == Some(id);
    if let Some(state) = keep.standing_of(id, &text) {
        if on_table {
            keep.say(state);
            drafts::remember(id);
        }
        return Ok(());
    }
    let revision = keep.revision(id);
    if revision.is_none() && untouched(bench, &piece) {
        if on_table {
            keep.say(State::Untouched);
        }
        return Ok(());
    }
    let now = js_sys::Date::now();
    match store::save(id, revision, &piece, &text, now).await? {
        Saved::As(revision) => {
            keep.learn(id, Some(revision), now, &text);
            drafts::drop_one(id);
            saved(bench, id, now);
        }
        // Another tab took it away: here it is made anew, under another number, so that there both can be had back.
        Saved::Gone => keep_as_new(bench, id, piece).await?,
        Saved::Changed(time) if bench.id.get_untracked() == Some(id) => ask(bench, time),
        Saved::Changed(_) => keep_as_new(bench, id, second(&piece)).await?,
    }
    Ok(())
}

fn saved(bench: Bench, id: PieceId, now: f64) {
    if bench.id.get_untracked() == Some(id) {
        bench.keep.say(State::Since(now));
        drafts::remember(id);
    }
    bench.keep.tell(id);
    pictured::take(bench);
    drafts::ask_to_persist();
}

/// Whether a piece is a recipe that came with the program and nothing else.
fn untouched(bench: Bench, piece: &Piece) -> bool {
    bench.origin.with_untracked(Option::is_none)
        && piece.seed == super::state::FIRST_SEED
        && piece.sisters.is_empty()
        && bench.demos.with_value(|demos| demos.contains(&piece.recipe))
}

/// The piece under the name that tells it from another of its name.
fn second(piece: &Piece) -> Piece {
    let mut piece = piece.clone();
    piece.recipe.title = words::numbered(&piece.recipe.title, |_| false);
    piece
}

/// Keeps a piece under another number than it had; if it lies on the table, so does that one.
async fn keep_as_new(bench: Bench, id: PieceId, piece: Piece) -> Result<(), Fault> {
    let fresh = PieceId::fresh();
    let now = js_sys::Date::now();
    let text = piece.write();
    store::save(fresh, None, &piece, &text, now).await?;
    bench.keep.learn(fresh, Some(1), now, &text);
    bench.keep.desk(|desk| desk.known.retain(|known| known.id != id));
    drafts::drop_one(id);
    if bench.id.get_untracked() == Some(id) {
        renumber(bench, fresh);
    }
    saved(bench, fresh, now);
    Ok(())
}

/// The piece on the table is another one from now on, but not by a change.
fn renumber(bench: Bench, fresh: PieceId) {
    bench.keep.desk(|desk| {
        if let Some(latest) = &mut desk.latest {
            latest.id = Some(fresh);
        }
    });
    bench.id.set(Some(fresh));
}

/// Asks what is to become of a piece that two tabs have changed: once, not at every further change.
fn ask(bench: Bench, time: f64) {
    if !matches!(bench.keep.state.get_untracked(), State::Conflict(_)) {
        bench.slip.set(Slip::Conflict(time));
    }
    bench.keep.say(State::Conflict(time));
}

/// The other tab's piece comes on the table. What lay here can be had back by a step back.
pub fn take_that_one(bench: Bench) {
    bench.lay_slip_aside();
    if let Some(id) = bench.id.get_untracked() {
        spawn_local(async move {
            match store::piece(id).await {
                Ok(Some(stored)) => take_over(bench, id, &stored),
                Ok(None) => {}
                Err(fault) => bench.keep.say(State::Not(fault)),
            }
        });
    }
}

/// This tab's piece becomes another one.
pub fn keep_both(bench: Bench) {
    bench.lay_slip_aside();
    bench.edit(&words::lower(words::KEEP_BOTH), &|recipe| {
        recipe.title = words::numbered(&recipe.title, |_| false);
    });
    if let Some(id) = bench.id.get_untracked() {
        drafts::drop_one(id);
    }
    bench.keep.desk(|desk| desk.waiting.clear());
    renumber(bench, PieceId::fresh());
    save_in(bench, Duration::ZERO);
}

/// Puts a piece from the shelf on the table.
pub fn take_up(bench: Bench, id: PieceId, stored: &Stored, piece: &Piece) {
    // As it is written here, should it have been written otherwise there.
    bench.keep.learn(id, Some(stored.revision), stored.changed, &piece.write());
    bench.take_up(&words::opening(&piece.recipe.title), Some(id), piece);
    bench.keep.note.set(String::new());
}

fn take_over(bench: Bench, id: PieceId, stored: &Stored) {
    let Ok(piece) = Piece::read(&stored.text, bench.seed.get_untracked()) else { return };
    bench.keep.learn(id, Some(stored.revision), stored.changed, &piece.write());
    drafts::drop_one(id);
    bench.adopt(words::OTHER_TAB, Standing { id: Some(id), piece });
    bench.keep.say(State::Since(stored.changed));
    bench.said.set(words::TAKEN_OVER.into());
}

/// Hears what other tabs have saved or taken away.
fn listen_to_tabs(bench: Bench) {
    // Without it a tab finds out when it saves.
    let Ok(channel) = BroadcastChannel::new(CHANNEL) else { return };
    let hear = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        bench.keep.news.update(|news| *news += 1);
        let id = event.data().as_f64().map(|id| PieceId(id as u64));
        if id.is_some() && id == bench.id.get_untracked() {
            spawn_local(follow(bench));
        }
    });
    channel.set_onmessage(Some(hear.into_js_value().unchecked_ref()));
    bench.keep.desk(|desk| desk.channel = Some(channel));
}

/// Takes over what another tab made of the piece on the table, if nothing was changed here that is not kept.
async fn follow(bench: Bench) {
    let Standing { id: Some(id), piece } = bench.standing() else { return };
    let text = piece.write();
    let clean = || {
        let now = bench.standing();
        now.id == Some(id) && now.piece.write() == text && bench.keep.standing_of(id, &text).is_some()
    };
    if !clean() {
        return;
    }
    match store::piece(id).await {
        Ok(Some(stored)) if clean() && stored.text != text => take_over(bench, id, &stored),
        Ok(Some(stored)) if clean() => bench.keep.know(id, &stored),
        Ok(None) if clean() => bench.keep.say(State::Away),
        _ => {}
    }
}

/// A piece was taken off the shelf in this tab: on the table it stays as it is until it is changed.
pub fn forget(bench: Bench, id: PieceId) {
    let text = bench.standing().piece.write();
    bench.keep.desk(|desk| {
        desk.known.retain(|known| known.id != id);
        desk.waiting.retain(|waiting| waiting.id != Some(id));
    });
    if bench.id.get_untracked() == Some(id) {
        bench.keep.learn(id, None, 0.0, &text);
        bench.keep.say(State::Away);
    }
    bench.keep.tell(id);
}

/// A piece came back on the shelf in this tab.
pub fn back_again(bench: Bench, id: PieceId) {
    bench.keep.tell(id);
    if bench.id.get_untracked() == Some(id) {
        spawn_local(async move {
            if let Ok(Some(stored)) = store::piece(id).await {
                bench.keep.know(id, &stored);
                save_now(bench);
            }
        });
    }
}

/// Writes what is not kept yet where it can be written at once, and begins to save it.
fn hide(bench: Bench) {
    let Standing { id: Some(id), piece } = bench.standing() else { return };
    let text = piece.write();
    let revision = bench.keep.revision(id);
    let kept = bench.keep.standing_of(id, &text).is_some();
    if !(kept || revision.is_none() && untouched(bench, &piece)) {
        drafts::write(id, revision, &text);
        save_now(bench);
    }
}

/// Keeps what a page that was ended could not keep any more; beside what was kept since, if it was.
async fn mend_drafts(bench: Bench) {
    for (id, revision, text) in drafts::all() {
        let Ok(piece) = Piece::read(&text, super::state::FIRST_SEED) else { continue };
        let now = js_sys::Date::now();
        let there = match store::piece(id).await {
            Ok(there) => there,
            Err(_) => return,
        };
        let revision = revision.filter(|_| there.is_some());
        let kept = match store::save(id, revision, &piece, &text, now).await {
            Ok(Saved::Changed(_)) => {
                let piece = second(&piece);
                store::save(PieceId::fresh(), None, &piece, &piece.write(), now).await
            }
            other => other,
        };
        if kept.is_ok() {
            drafts::drop_one(id);
            bench.keep.tell(id);
        }
    }
}

/// Lays on the table what lay there last in this tab, or in this browser, or else what was changed last.
async fn lay_last(bench: Bench) {
    let mut wanted = drafts::last();
    if wanted.is_none() {
        wanted = store::cards().await.ok().and_then(|cards| cards.first().map(|card| card.id));
    }
    let Some(id) = wanted else { return };
    let found = store::piece(id).await.ok().flatten();
    let piece = found.as_ref().and_then(|stored| Piece::read(&stored.text, super::state::FIRST_SEED).ok());
    // Whoever was quicker than the storage goes on with what is under the hand.
    if bench.id.get_untracked().is_some() || bench.history.names.with_untracked(|names| names.count > 0) {
        return;
    }
    match (found, piece) {
        (Some(stored), Some(piece)) => {
            bench.keep.learn(id, Some(stored.revision), stored.changed, &piece.write());
            bench.keep.say(State::Since(stored.changed));
            bench.lay_slip_aside();
            bench.lay(Standing { id: Some(id), piece });
        }
        _ => bench.slip.set(Slip::Welcome),
    }
}
