//! One step of the recipe: its row, its notices, and what it shows when it is open.

use super::body::{OpenStep, step_body};
use super::margin::margin;
use super::notices::StepNotices;
use super::state::{CoatDrawer, StepItems, step_number};
use super::summary::{name, summary};
use super::swatch::Swatch;
use crate::state::fired::Fired;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::notice::Step;
use leptos::html;
use leptos::prelude::*;

/// A step as an item of the recipe's list.
#[component]
pub fn StepRow(
    /// Which step.
    step: Step,
) -> impl IntoView {
    let (nav, items) = (expect_context::<Nav>(), expect_context::<StepItems>());
    let open = Memo::new(move |_| nav.step.get() == Some(step));
    let drawer = RwSignal::new(items.first_drawer(step));
    let item = NodeRef::<html::Li>::new();
    items.register(step, item);
    provide_context(OpenStep { step, drawer });
    let has_row = !matches!(step, Step::Ticket | Step::Recipe);
    view! {
        <li class=class(step) class:open=move || open.get() node_ref=item>
            {has_row.then(|| view! { <Row step open drawer /> })}
            <StepNotices step />
            <div class="body-place" id=body_id(step)>
                <Show when=move || open.get()>
                    {step_body()}
                </Show>
            </div>
        </li>
    }
}

/// What a step shows while it is closed, and opens it.
#[component]
fn Row(
    /// Which step.
    step: Step,
    /// Whether it is open.
    open: Memo<bool>,
    /// What it has drawn out, if it is a coat.
    drawer: RwSignal<Option<CoatDrawer>>,
) -> impl IntoView {
    let (nav, items) = (expect_context::<Nav>(), expect_context::<StepItems>());
    let toggle = move |_| {
        nav.toggle_step(step);
        drawer.set(None);
        items.show_whole(step);
    };
    let is_coat = matches!(step, Step::Coat(_));
    view! {
        <div class="row">
            <button
                class="row-button"
                aria-controls=body_id(step)
                aria-expanded=move || open.get().to_string()
                on:click=toggle
            >
                <Swatch step />
                <RowWords step open />
                <Margin step open />
            </button>
            <Show when=move || is_coat && open.get()>
                <DrawerWords drawer />
            </Show>
            {firing(step).map(|firing| view! { <ProgramWord firing open /> })}
        </div>
    }
}

/// The word that opens the program of a firing.
#[component]
fn ProgramWord(
    /// Which firing.
    firing: Firing,
    /// Whether its step is open.
    open: Memo<bool>,
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        <Show when=move || open.get()>
            <span class="unfold">
                <button class="word" on:click=move |_| nav.open_program(firing)>
                    {words::PROGRAM}
                </button>
            </span>
        </Show>
    }
}

/// The firing that a step is; the accents have theirs further down.
fn firing(step: Step) -> Option<Firing> {
    match step {
        Step::Fuse => Some(Firing::FullFuse),
        Step::Slump => Some(Firing::Slump),
        _ => None,
    }
}

/// The step's name and, while it is closed, what it says.
#[component]
fn RowWords(
    /// Which step.
    step: Step,
    /// Whether it is open.
    open: Memo<bool>,
) -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let rolls = Memo::new(move |_| results.ticket.with(|ticket| ticket.as_ref().map(|ticket| ticket.rolls)));
    let said = move || {
        let units = preferences.units.get();
        units.text(&summary(step, &piece.recipe.read(), rolls.get(), units))
    };
    view! {
        <span class="row-words">
            <b>{move || name(step, &piece.recipe.read())}</b>
            " "
            <span class="summary" class:hidden=move || open.get()>
                {said}
            </span>
        </span>
    }
}

/// The step's number in the margin; of an open firing its hours.
#[component]
fn Margin(
    /// Which step.
    step: Step,
    /// Whether it is open.
    open: Memo<bool>,
) -> impl IntoView {
    let (results, fired) = (expect_context::<Results>(), expect_context::<Fired>());
    let hours = Memo::new(move |_| {
        let firing = firing(step).filter(|_| open.get())?;
        let hours = fired.program(firing).map(|program| words::hours_long(program.hours));
        Some(hours.unwrap_or_else(|| words::CANNOT.into()))
    });
    let number = move || {
        let hours = hours.get();
        let weighed = || {
            results
                .ticket
                .with(|ticket| ticket.as_ref().map(|ticket| margin(step, ticket)).unwrap_or_default())
        };
        hours.unwrap_or_else(weighed)
    };
    view! {
        <span class="number" class:less=step == Step::Sponge>
            {number}
        </span>
    }
}

/// The words that draw out what an open coat has besides.
#[component]
fn DrawerWords(
    /// What is drawn out.
    drawer: RwSignal<Option<CoatDrawer>>,
) -> impl IntoView {
    view! {
        <span class="unfold">
            <DrawerWord drawer which=CoatDrawer::Powders word=words::POWDER />
            <DrawerWord drawer which=CoatDrawer::Menu word=words::COAT_MENU />
        </span>
    }
}

/// One of them.
#[component]
fn DrawerWord(
    /// What is drawn out.
    drawer: RwSignal<Option<CoatDrawer>>,
    /// What this one draws out.
    which: CoatDrawer,
    /// The word.
    word: &'static str,
) -> impl IntoView {
    let toggle = move |_| drawer.update(|now| *now = (*now != Some(which)).then_some(which));
    view! {
        <button
            class="word"
            aria-expanded=move || (drawer.get() == Some(which)).to_string()
            on:click=toggle
        >
            {word}
        </button>
    }
}

/// The id of the place that a step's body has.
fn body_id(step: Step) -> String {
    format!("step-{}", step_number(step))
}

fn class(step: Step) -> &'static str {
    match step {
        Step::Recipe | Step::Ticket => "step ticket-step",
        Step::Blank => "step blank",
        Step::Coat(_) => "step coat",
        Step::Sponge => "step sponge",
        Step::Fuse => "step fuse",
        Step::Accents => "step accents",
        Step::Slump => "step slump",
        Step::Stem => "step stem",
    }
}
