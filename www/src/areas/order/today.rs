//! The bench on a day of work: one piece at a time, boxes to tick, jars to weigh, and what else is done on that day.

use super::bench::number;
use super::screen::KeepOn;
use super::state::OrderState;
use super::undo::steps;
use crate::areas::sheet::{name, summary};
use crate::controls::cautions::CautionsWord;
use crate::controls::picture::Picture;
use crate::dom::clock;
use crate::fields::types::Unit;
use crate::model::slots::PictureSlot;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::base::seed::Seed;
use dappledome::base::units::Grams;
use dappledome::orders::limits::JAR;
use dappledome::orders::model::{Order, What};
use dappledome::orders::pieces;
use dappledome::orders::progress::{CoatDone, PieceDone};
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// A piece of the order: its line, its number in it, its layout.
type Piece = (usize, u32, Seed);

/// All pieces, in the order in which they are made.
fn all(order: &Order) -> Vec<Piece> {
    let lines = (0..order.lines.len()).map(|line| (line, pieces::each(order, line)));
    lines.flat_map(|(line, seeds)| (0..).zip(seeds).map(move |(piece, seed)| (line, piece, seed))).collect()
}

/// The first of them on which something is left to do.
fn first_open(order: &Order, all: &[Piece]) -> Option<Piece> {
    let open = |piece: &&Piece| !order.progress.piece(piece.0, piece.1).is_done(&order.lines[piece.0].recipe);
    all.iter().find(open).copied()
}

/// Whether the bench is shown, followed: where the maker has said so, else on a narrow screen on a day of work.
pub fn is_shown(state: OrderState, narrow: bool) -> bool {
    state.today.get().unwrap_or(narrow && is_day(state))
}

/// Whether something of the order is done today, followed.
pub fn is_day(state: OrderState) -> bool {
    !todays(state).is_empty()
}

/// What is done today, followed.
fn todays(state: OrderState) -> Vec<(What, String)> {
    let today = clock::today();
    let doings = state.worked(|worked| {
        let doings = worked.days.iter().flat_map(|days| &days.doings).filter(|doing| doing.day == today);
        doings.map(|doing| (doing.what, words::doing(doing))).collect()
    });
    doings.unwrap_or_default()
}

/// The whole bench.
pub fn bench(state: OrderState) -> AnyView {
    let now = Memo::new(move |_| {
        let chosen = state.shown.get();
        state
            .orders
            .with(|order| {
                let all = all(order);
                let at = |piece: Piece| all.iter().position(|other| other.0 == piece.0 && other.1 == piece.1);
                chosen.or_else(|| first_open(order, &all)).and_then(at)
            })
            .flatten()
    });
    let piece = move || state.orders.with(|order| all(order).get(now.get()?).copied()).flatten();
    view! {
        <div class="today">
            <div class="today-head">
                <span class="round today-picture">
                    {move || piece().map(|(line, _, seed)| view! { <Picture of=PictureSlot::Ordered(line, seed) /> })}
                </span>
                <div>
                    <h2>{words::today(clock::today())}</h2>
                    <p>{move || sifted(state)}</p>
                    <p>{move || walk(state, now.get())}</p>
                </div>
            </div>
            <div class="today-words">
                {move || steps(state)} <KeepOn state /> <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| state.today.set(Some(false))>
                    {words::WHOLE_ORDER}
                </button>
                <button class="table-word" on:click=move |_| state.nav.close_area()>
                    {words::CLOSE_ORDER}
                </button>
            </div>
            <ul class="today-steps">
                {move || {
                    let at = now.get();
                    untrack(|| at.and_then(|_| piece())).map(|piece| boxes(state, piece))
                }}
            </ul>
            <p class="order-said" role="status">
                {move || state.said.get()}
            </p>
            {move || rest(state)}
            <div class="today-foot">
                <p class="today-caution">{words::WHILE_YOU_SIFT}</p>
                <div class="buttons">{move || deeds(state, piece())}</div>
            </div>
        </div>
    }
    .into_any()
}

/// How many are done.
fn sifted(state: OrderState) -> Option<String> {
    state.orders.with(|order| {
        let all = all(order);
        let done =
            |piece: &&Piece| order.progress.piece(piece.0, piece.1).is_done(&order.lines[piece.0].recipe);
        words::done_of(all.iter().filter(done).count(), all.len())
    })
}

/// Which piece is shown, and the ones beside it.
fn walk(state: OrderState, now: Option<usize>) -> Option<AnyView> {
    let all = state.orders.with(all)?;
    let Some(at) = now else { return Some(words::ALL_DABBED.into_any()) };
    let to = |to: Option<Piece>, word: fn(Seed) -> String| {
        to.map(|piece| {
            view! {
                <button class="word" on:click=move |_| state.shown.set(Some(piece))>
                    {word(piece.2)}
                </button>
            }
        })
    };
    let beside = |by: isize| at.checked_add_signed(by).and_then(|at| all.get(at)).copied();
    Some(
        view! {
            <b>{words::piece_of(all.get(at)?.2, at, all.len())}</b>
            <span class="today-walk">{to(beside(-1), words::before_it)} {to(beside(1), words::behind_it)}</span>
        }
        .into_any(),
    )
}

/// The boxes of a piece: its coats, and the sponge.
fn boxes(state: OrderState, (line, piece, _): Piece) -> Option<AnyView> {
    let recipe =
        state.orders.with(|order| order.lines.get(line).map(|line| line.recipe.clone())).flatten()?;
    let coats = recipe.coats.iter().map(|coat| {
        let (id, step) = (coat.id, Step::Coat(coat.id));
        let done = move |piece: &PieceDone| piece.coat(id).sifted;
        let tick = move |piece: &mut PieceDone, ticked: bool| piece.coat_mut(id).sifted = ticked;
        let grams = move || weighed(state, line, id).unwrap_or_default();
        item(
            state,
            (line, piece),
            (&recipe, step),
            done,
            tick,
            Some(grams.into_any()),
            Some(jar(state, (line, piece, id), &name(step, &recipe))),
        )
    });
    let coats = coats.collect_view();
    let sponge = recipe.sponge.as_ref().map(|_| {
        let tick = |piece: &mut PieceDone, ticked: bool| piece.sponged = ticked;
        item(state, (line, piece), (&recipe, Step::Sponge), |piece| piece.sponged, tick, None, None)
    });
    Some(view! { {coats} {sponge} }.into_any())
}

/// Grams of a coat for one disc.
fn weighed(state: OrderState, line: usize, id: u32) -> Option<String> {
    state
        .worked(|worked| {
            let coat = worked.weighed.coats.iter().find(|coat| (coat.line, coat.coat) == (line, id))?;
            Some(words::grams(coat.one.iter().map(|part| part.grams.0).sum()))
        })
        .flatten()
}

/// Something of a piece, followed.
fn of_piece<T>(
    state: OrderState,
    (line, piece): (usize, u32),
    look: impl FnOnce(&PieceDone) -> T,
) -> Option<T> {
    state.orders.with(|order| look(&order.progress.piece(line, piece)))
}

/// A box with its words.
fn item(
    state: OrderState,
    at: (usize, u32),
    (recipe, step): (&Recipe, Step),
    done: impl Fn(&PieceDone) -> bool + Copy + Send + Sync + 'static,
    tick: impl Fn(&mut PieceDone, bool) + Copy + Send + Sync + 'static,
    grams: Option<AnyView>,
    more: Option<AnyView>,
) -> AnyView {
    let checked = move || of_piece(state, at, |piece| done(piece)).unwrap_or(false);
    let did = words::done(&name(step, recipe));
    let change = move |event| {
        let ticked = event_target_checked(&event);
        state.edit(&did, |order| tick(order.progress.piece_mut(at.0, at.1), ticked));
    };
    let units = state.preferences.units.get_untracked();
    view! {
        <li>
            <label class="today-box">
                <input type="checkbox" prop:checked=checked on:change=change />
                <span>
                    <b>{name(step, recipe)}</b>
                    <span class="second">{units.text(&summary(step, recipe, None, units))}</span>
                </span>
                <b class="today-grams">{grams}</b>
            </label>
            {more}
        </li>
    }
    .into_any()
}

/// What a coat's jar weighed before and after.
fn jar(state: OrderState, (line, piece, id): (usize, u32, u32), powder: &str) -> AnyView {
    let coat = move || of_piece(state, (line, piece), |piece| piece.coat(id)).unwrap_or_default();
    let change = move |set: fn(&mut CoatDone, Option<Grams>), to: Option<f64>| {
        state.edit(words::DID_JAR, |order| {
            set(order.progress.piece_mut(line, piece).coat_mut(id), to.map(Grams))
        });
    };
    let field = |word: &str, get: fn(CoatDone) -> Option<Grams>, set: fn(&mut CoatDone, Option<Grams>)| {
        let name = format!("{} {word}, {powder}", words::JAR_WEIGHS);
        number(
            state,
            name,
            (Unit::Grams, JAR),
            move || get(coat()).map(|grams| grams.0),
            move |to| change(set, to),
        )
    };
    view! {
        <p class="today-jar">
            {words::JAR_WEIGHS} " " {field(words::BEFORE, |coat| coat.before, |coat, to| coat.before = to)} " "
            {words::BEFORE} ", " {field(words::AFTER, |coat| coat.after, |coat, to| coat.after = to)} " " {words::AFTER}
            {move || coat().used().map(words::used)}
        </p>
    }
    .into_any()
}

/// What else is done today.
fn rest(state: OrderState) -> AnyView {
    let others: Vec<_> = todays(state).into_iter().filter(|(what, _)| *what != What::Sift).collect();
    if others.is_empty() {
        return view! { <p class="today-rest second">{words::NOTHING_TODAY}</p> }.into_any();
    }
    let others = others.into_iter().map(|(_, said)| view! { <li>{said}</li> }).collect_view();
    view! {
        <div class="today-rest">
            <b>{words::AND_TODAY}</b>
            <ul>{others}</ul>
        </div>
    }
    .into_any()
}

/// The first step of a piece that is left to do, and how it is ticked.
fn left(recipe: &Recipe, done: &PieceDone) -> Option<Step> {
    let coat = recipe.coats.iter().map(|coat| coat.id).find(|id| !done.coat(*id).sifted);
    let sponge = (recipe.sponge.is_some() && !done.sponged).then_some(Step::Sponge);
    if done.broken { None } else { coat.map(Step::Coat).or(sponge) }
}

/// What is done with one press.
fn deeds(state: OrderState, piece: Option<Piece>) -> Option<AnyView> {
    let (line, number, seed) = piece?;
    let (recipe, done) = state
        .orders
        .with(|order| Some((order.lines.get(line)?.recipe.clone(), order.progress.piece(line, number))))
        .flatten()?;
    let main = match left(&recipe, &done) {
        Some(step) => {
            let word = words::done(&name(step, &recipe));
            let did = word.clone();
            let press = move |_| {
                state.edit(&did, |order| {
                    let piece = order.progress.piece_mut(line, number);
                    match step {
                        Step::Coat(id) => piece.coat_mut(id).sifted = true,
                        _ => piece.sponged = true,
                    }
                });
            };
            view! { <button class="button main" on:click=press>{word}</button> }.into_any()
        }
        None => view! {
            <button class="button main" on:click=move |_| state.shown.set(None)>
                {words::NEXT_PIECE}
            </button>
        }
        .into_any(),
    };
    let broken = done.broken;
    let toggle = move |_| {
        state.edit(words::DID_BREAK, |order| order.progress.piece_mut(line, number).broken = !broken);
        if !broken {
            let made = untrack(|| state.orders.with(|order| all(order).len())).unwrap_or(0);
            let said = words::piece_broke(seed, made);
            state.said.set(Some(said.clone()));
            state.announcer.say(said);
            state.shown.set(None);
        }
    };
    let word = if broken { words::DID_NOT_BREAK } else { words::BROKE };
    Some(
        view! {
            {main}
            <button class="button" on:click=toggle>
                {word}
            </button>
        }
        .into_any(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::demo;

    /// Three coats and a sponge, one after the other; what broke has nothing left.
    #[test]
    fn steps_are_done_in_their_order() {
        let mut order = Order::of(demo::ember_walk(), 2);
        let recipe = demo::ember_walk();
        let mut said = Vec::new();
        while let Some(step) = left(&recipe, &order.progress.piece(0, 0)) {
            said.push(name(step, &recipe));
            let piece = order.progress.piece_mut(0, 0);
            match step {
                Step::Coat(id) => piece.coat_mut(id).sifted = true,
                _ => piece.sponged = true,
            }
        }
        assert_eq!(said, ["Straw", "Rust", "Coral", "Sponge"]);
        let pieces = all(&order);
        assert_eq!(first_open(&order, &pieces).map(|piece| piece.1), Some(1));
        order.progress.piece_mut(0, 1).broken = true;
        assert_eq!(left(&recipe, &order.progress.piece(0, 1)), None);
        assert_eq!(all(&order).len(), pieces.len() + 1, "one more is made");
    }
}
