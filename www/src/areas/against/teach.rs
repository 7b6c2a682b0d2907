//! What the piece teaches, each a press away and none by itself: a glass, a depth, a note, the maker's hand.

use super::state::AgainstState;
use crate::dom::clock;
use crate::model::ids::LogId;
use crate::state::glasses::OwnGlasses;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::units::Mm;
use dappledome::compare::hand::{Told, hand};
use dappledome::compare::refit::refit;
use dappledome::compare::row::{Row, Says};
use dappledome::compare::rows::worst;
use dappledome::glass::kind::Glass;
use dappledome::keep::log::LogEntry;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The buttons.
pub fn teach(state: AgainstState) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let buttons = move || {
        let compared = state.comparison()?;
        let off = worst(&compared.rows).cloned();
        Some(view! {
            <div class="buttons">
                {off.as_ref().and_then(|row| fit_word(state, row, said))}
                {off.as_ref().and_then(|row| deeper_word(state, row))} {note_word(state, said)}
            </div>
        })
    };
    view! {
        {buttons}
        <p class="refused" role="alert">{move || said.get()}</p>
        {move || of_the_hand(state)}
    }
    .into_any()
}

/// Fits a new glass to what came out, puts it on the shelf and in the place of the old one.
fn fit_word(state: AgainstState, row: &Row, said: RwSignal<Option<String>>) -> Option<AnyView> {
    let own = expect_context::<OwnGlasses>();
    let coat = *row.coats.last()?;
    let old = state.piece.recipe.with(|recipe| {
        let [part] = &recipe.coat(coat)?.powder[..] else { return None };
        Some((part.glass.clone(), recipe.glasses.name(&part.glass)))
    })?;
    let name = words::refitted(&old.1, clock::today());
    // Whether it can be done at all.
    refit(&state.plan()?, row, (String::new(), String::new()))?;
    let (row, named) = (row.clone(), name.clone());
    let fit = move |_| {
        let Some(plan) = untrack(|| state.plan()) else { return };
        let Some(mut glass) = refit(&plan, &row, (String::new(), named.clone())) else { return };
        let put = own.put_new(&named, |id| {
            glass.id = id;
            glass.clone()
        });
        if put.is_ok() {
            state.piece.edit(words::did::REFITTED, |recipe| replace(recipe, coat, &old.0, &glass));
            state.announcer.say(words::is_fitted(&named));
        }
        said.set(put.err());
    };
    Some(view! { <button class="button main" on:click=fit>{words::fit_it(&name)}</button> }.into_any())
}

/// Takes another glass for the old one in a coat.
fn replace(recipe: &mut Recipe, coat: u32, old: &str, new: &Glass) {
    recipe.bring(new);
    let coats = recipe.coats.iter_mut().filter(|one| one.id == coat);
    for part in coats.flat_map(|coat| &mut coat.powder).filter(|part| part.glass == old) {
        part.glass.clone_from(&new.id);
    }
}

/// Writes down that so much was sifted.
fn deeper_word(state: AgainstState, row: &Row) -> Option<AnyView> {
    let units = expect_context::<Preferences>().units;
    let (Says::AsIf(depth) | Says::AsIfAndOther(depth)) = row.fired?.says else { return None };
    let coat = *row.coats.last()?;
    let asked = state.piece.recipe.with(|recipe| recipe.coat(coat).map(|coat| coat.fall.middling()))?;
    let take = move |_| {
        state.piece.edit(words::did::SIFTED_SO, |recipe| set_depth(recipe, coat, depth));
        state.announcer.say(words::TAKEN_AS_SIFTED);
    };
    let word = move || units.get().text(&words::sifted_so(depth.0 > asked, depth));
    Some(view! { <button class="button" on:click=take>{word}</button> }.into_any())
}

fn set_depth(recipe: &mut Recipe, coat: u32, depth: Mm) {
    let coats = recipe.coats.iter_mut().filter(|one| one.id == coat);
    coats.for_each(|coat| coat.fall.set_middling(depth.0));
}

/// Writes what came out into the log, with what it tells of the hand.
fn note_word(state: AgainstState, said: RwSignal<Option<String>>) -> AnyView {
    let note = move |_| {
        let Some(compared) = untrack(|| state.comparison()) else { return };
        let (first, rest) =
            state.piece.recipe.with_untracked(|recipe| words::came_out(recipe, worst(&compared.rows)));
        let id = entry(state);
        let noted = state.log.edit(id, |entry| {
            entry.differed = words::and_also(&entry.differed, &format!("{first} {rest}"));
            entry.hand.clone_from(&compared.told);
        });
        if noted.is_ok() {
            state.announcer.say(words::NOTED);
        }
        said.set(Some(noted.err().unwrap_or_else(|| words::NOTED.into())));
    };
    view! { <button class="button" on:click=note>{words::ONLY_NOTE}</button> }.into_any()
}

/// The entry that it is noted in: that it was opened from, or a new one.
fn entry(state: AgainstState) -> LogId {
    if let Some(id) = state.against.entry.get_untracked() {
        return id;
    }
    let version = state.piece.version();
    let entry = LogEntry::new(version.piece.recipe, version.piece.seed, Firing::FullFuse, clock::today());
    let id = LogId::fresh();
    state.log.take_in(id, LogEntry { piece: version.id.map(|id| id.0), ..entry });
    state.against.entry.set(Some(id));
    id
}

/// How deep the coats of a recipe lie, mm.
fn depths(recipe: &Recipe) -> Vec<f64> {
    recipe.coats.iter().map(|coat| coat.fall.middling()).collect()
}

/// What several pieces tell of the maker's hand, and the word that lays this one so: not again as long as it lies so.
fn of_the_hand(state: AgainstState) -> Option<AnyView> {
    let told: Vec<Told> = state.log.list.read().iter().flat_map(|record| record.entry.hand.clone()).collect();
    let hand = hand(&told)?;
    let lay = move |_| {
        state.piece.edit(words::did::MY_HAND, |recipe| {
            recipe
                .coats
                .iter_mut()
                .for_each(|coat| coat.fall.set_middling(coat.fall.middling() * hand.deeper));
        });
        state.against.laid.set(Some(state.piece.recipe.with_untracked(depths)));
    };
    let not_laid = move || {
        let now = state.piece.recipe.with(depths);
        state.against.laid.with(|laid| laid.as_ref() != Some(&now))
    };
    Some(
        view! {
            <p class="against-hand">
                {words::my_hand(hand, told.len())}
                " "
                <Show when=not_laid fallback=|| words::LAID_SO>
                    <button class="word" on:click=lay>
                        {words::LAY_IT_SO}
                    </button>
                </Show>
            </p>
        }
        .into_any(),
    )
}
