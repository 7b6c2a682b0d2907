//! One step of the recipe: its row, its notices, and what it shows when it is open.

use super::state::Bench;
use super::{bodies, coat_body, notices, words};
use dappledome::base::notice::Step;
use dappledome::optics::test_tile::{self, Color};
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// What a coat's open head has unfolded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfolded {
    /// Nothing.
    Nothing,
    /// The choice of powders.
    Powders,
    /// What can be done with the coat.
    Coat,
}

/// A number for good for each step, for the list's keys and the elements' ids.
pub fn key(step: Step) -> u64 {
    match step {
        Step::Recipe => 0,
        Step::Ticket => 1,
        Step::Blank => 2,
        Step::Sponge => 3,
        Step::Fuse => 4,
        Step::Accents => 5,
        Step::Slump => 6,
        Step::Coat(id) => 16 + u64::from(id),
    }
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
    }
}

/// A step as an item of the recipe's list.
pub fn step(bench: Bench, step: Step) -> AnyView {
    let open = Memo::new(move |_| bench.open.get() == Some(step));
    let unfolded = RwSignal::new(Unfolded::Nothing);
    let id = format!("step-{}", key(step));
    let row = (!matches!(step, Step::Ticket | Step::Recipe)).then(|| row(bench, step, open, unfolded, &id));
    view! {
        <li class=class(step) class:open=open>
            {row}
            {notices::notices(bench, step)}
            <div id=id class="body-place">
                <Show when=move || open.get()>{body(bench, step, unfolded)}</Show>
            </div>
        </li>
    }
    .into_any()
}

fn row(bench: Bench, step: Step, open: Memo<bool>, unfolded: RwSignal<Unfolded>, id: &str) -> AnyView {
    let name = Memo::new(move |_| name(bench, step));
    let summary = Memo::new(move |_| summary(bench, step));
    let number = Memo::new(move |_| bench.ticket.with(|ticket| number(step, ticket.as_ref())));
    let unfold = matches!(step, Step::Coat(_)).then(|| {
        view! {
            <Show when=move || open.get()>
                <span class="unfold">
                    {unfold_word(unfolded, Unfolded::Powders, words::POWDER)}
                    {unfold_word(unfolded, Unfolded::Coat, words::COAT_MENU)}
                </span>
            </Show>
        }
    });
    view! {
        <div class="row">
            <button
                class="row-button"
                aria-expanded=move || open.get().to_string()
                aria-controls=id.to_string()
                on:click=move |event| {
                    bench.toggle(step);
                    unfolded.set(Unfolded::Nothing);
                    bring_into_view(&event);
                }
            >
                {swatch(bench, step)}
                <span class="row-words">
                    <b>{name}</b>
                    <span class="summary" class:hidden=open>{summary}</span>
                </span>
                <span class="number" class:less=matches!(step, Step::Sponge)>{number}</span>
            </button>
            {unfold}
        </div>
    }
    .into_any()
}

fn unfold_word(unfolded: RwSignal<Unfolded>, which: Unfolded, word: &'static str) -> AnyView {
    view! {
        <button
            class="word"
            aria-expanded=move || (unfolded.get() == which).to_string()
            on:click=move |_| {
                unfolded.update(|now| *now = if *now == which { Unfolded::Nothing } else { which });
            }
        >
            {word}
        </button>
    }
    .into_any()
}

/// Once the step has unfolded, as much of it as fits comes into view.
fn bring_into_view(event: &leptos::ev::MouseEvent) {
    let Some(target) = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok())
    else {
        return;
    };
    request_animation_frame(move || {
        if let Ok(Some(item)) = target.closest("li") {
            let options = web_sys::ScrollIntoViewOptions::new();
            options.set_block(web_sys::ScrollLogicalPosition::Nearest);
            item.scroll_into_view_with_scroll_into_view_options(&options);
        }
    });
}

fn body(bench: Bench, step: Step, unfolded: RwSignal<Unfolded>) -> AnyView {
    match step {
        Step::Coat(id) => coat_body::coat(bench, id, unfolded),
        Step::Blank => bodies::blank(bench),
        Step::Sponge => bodies::sponge(bench),
        Step::Fuse => bodies::fuse(bench),
        Step::Accents => bodies::accents(bench),
        Step::Slump => bodies::slump(bench),
        Step::Ticket | Step::Recipe => bodies::batch(bench),
    }
}

fn name(bench: Bench, step: Step) -> String {
    match step {
        Step::Coat(id) => bench
            .recipe
            .with(|recipe| recipe.coat(id).map_or_else(String::new, |coat| words::blend(&coat.powder))),
        other => words::step(other).into(),
    }
}

fn summary(bench: Bench, step: Step) -> String {
    let rolls = matches!(step, Step::Sponge)
        .then(|| bench.ticket.with(|ticket| ticket.as_ref().map(|ticket| ticket.rolls)))
        .flatten();
    bench.recipe.with(|recipe| match step {
        Step::Blank => words::blank(recipe),
        Step::Coat(id) => recipe.coat(id).map_or_else(String::new, words::coat),
        Step::Sponge => recipe.sponge.as_ref().map_or_else(String::new, |s| words::sponge(s, rolls)),
        Step::Fuse => words::fuse(recipe),
        Step::Accents => words::accents(recipe),
        Step::Slump => words::slump(recipe),
        Step::Ticket | Step::Recipe => String::new(),
    })
}

/// What stands in the margin. The margin is for the whole batch: what is weighed, cut and set.
fn number(step: Step, ticket: Option<&Ticket>) -> String {
    let Some(ticket) = ticket else { return String::new() };
    match step {
        Step::Blank => words::count(ticket.discs.iter().map(|disc| disc.count).sum(), "disc", "discs"),
        Step::Coat(id) => coat_to_weigh(ticket, id).map_or_else(String::new, words::grams),
        Step::Sponge => {
            format!("{} off", words::grams(ticket.lifted.0 * f64::from(ticket.pieces)))
        }
        Step::Accents => {
            let each: u32 = ticket.accents.iter().map(|accent| accent.count).sum();
            words::count(each * ticket.pieces, "piece", "pieces")
        }
        Step::Fuse | Step::Slump | Step::Ticket | Step::Recipe => String::new(),
    }
}

/// What to weigh out for a coat: its share of all the powder that has to be ready.
fn coat_to_weigh(ticket: &Ticket, id: u32) -> Option<f64> {
    let coat = ticket.coats.iter().find(|coat| coat.id == id)?;
    let ready: f64 = ticket.powders.iter().map(|powder| powder.ready.0).sum();
    let sifted: f64 = ticket.coats.iter().map(|coat| coat.sifted.0).sum();
    (sifted > 0.0).then(|| coat.sifted.0 * ready / sifted)
}

fn swatch(bench: Bench, step: Step) -> AnyView {
    let colors = Memo::new(move |_| -> Option<(Color, Color)> {
        let board = bench.board.read();
        match step {
            Step::Blank => {
                let color = test_tile::blank_swatch(&board.made.1);
                Some((color, color))
            }
            Step::Coat(id) => test_tile::swatch(&board.made.1, id),
            _ => None,
        }
    });
    if !matches!(step, Step::Blank | Step::Coat(_)) {
        return view! { <span class="no-swatch"></span> }.into_any();
    }
    let loose = move || colors.get().map(|(loose, _)| rgb(loose));
    let fired = move || colors.get().map(|(_, fired)| rgb(fired));
    view! { <span class="swatch" style:--loose=loose style:--fired=fired></span> }.into_any()
}

fn rgb([r, g, b]: Color) -> String {
    format!("rgb({r} {g} {b})")
}
