//! One step of the recipe: its row, its notices, and what it shows when it is open.

use super::choice::word;
use super::dom::{El, el, memo};
use super::state::Bench;
use super::{bodies, coat_body, notices, words};
use dappledome::base::notice::Step;
use dappledome::optics::test_tile::{self, Color};
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;

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
pub fn step(bench: Bench, step: Step) -> El {
    let open = memo(move || bench.open.get() == Some(step));
    let unfolded = RwSignal::new(Unfolded::Nothing);
    let id = format!("step-{}", key(step));
    let row = (!matches!(step, Step::Ticket | Step::Recipe)).then(|| row(bench, step, open, unfolded, &id));
    let place =
        el("div", "body-place").is("id", &id).when(move || open.get(), move || body(bench, step, unfolded));
    el("li", class(step))
        .class_when("open", move || open.get())
        .with_all(row)
        .with(notices::notices(bench, step))
        .with(place)
}

fn row(bench: Bench, step: Step, open: Memo<bool>, unfolded: RwSignal<Unfolded>, id: &str) -> El {
    let number = el("span", if step == Step::Sponge { "number less" } else { "number" })
        .reads(move || bench.ticket.with(|ticket| number(step, ticket.as_ref())));
    let summary = el("span", "summary")
        .class_when("hidden", move || open.get())
        .reads(move || bench.shown(&summary(bench, step)));
    let words =
        el("span", "row-words").with(el("b", "").reads(move || name(bench, step))).says(" ").with(summary);
    let button = el("button", "row-button").is("aria-controls", id);
    let itself = button.clone();
    let button = button
        .live_flag("aria-expanded", move || open.get())
        .press(move || {
            bench.toggle(step);
            unfolded.set(Unfolded::Nothing);
            bring_into_view(&itself);
        })
        .with(swatch(bench, step))
        .with(words)
        .with(number);
    let row = el("div", "row").with(button);
    if !matches!(step, Step::Coat(_)) {
        return row;
    }
    row.when(
        move || open.get(),
        move || {
            el("span", "unfold")
                .with(unfold_word(unfolded, Unfolded::Powders, words::POWDER))
                .with(unfold_word(unfolded, Unfolded::Coat, words::COAT_MENU))
        },
    )
}

fn unfold_word(unfolded: RwSignal<Unfolded>, which: Unfolded, name: &str) -> El {
    let unfold = move || unfolded.update(|now| *now = if *now == which { Unfolded::Nothing } else { which });
    word(name, unfold).live_flag("aria-expanded", move || unfolded.get() == which)
}

/// Once the step has unfolded, as much of it as fits comes into view.
fn bring_into_view(row: &El) {
    let row = row.clone();
    request_animation_frame(move || {
        if let Ok(Some(item)) = row.element().closest("li") {
            let options = web_sys::ScrollIntoViewOptions::new();
            options.set_block(web_sys::ScrollLogicalPosition::Nearest);
            item.scroll_into_view_with_scroll_into_view_options(&options);
        }
    });
}

fn body(bench: Bench, step: Step, unfolded: RwSignal<Unfolded>) -> El {
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
        Step::Coat(id) => bench.recipe.with(|recipe| words::powder_of(recipe, id)),
        other => words::step(other).into(),
    }
}

fn summary(bench: Bench, step: Step) -> String {
    let rolls = matches!(step, Step::Sponge)
        .then(|| bench.ticket.with(|ticket| ticket.as_ref().map(|ticket| ticket.rolls)))
        .flatten();
    let units = bench.units.get();
    bench.recipe.with(|recipe| match step {
        Step::Blank => words::blank(recipe),
        Step::Coat(id) => recipe.coat(id).map_or_else(String::new, words::coat),
        Step::Sponge => recipe.sponge.as_ref().map_or_else(String::new, |s| words::sponge(s, rolls)),
        Step::Fuse => words::fuse(recipe),
        Step::Accents => words::accents(recipe),
        Step::Slump => words::slump(recipe, units),
        Step::Ticket | Step::Recipe => String::new(),
    })
}

/// What stands in the margin. The margin is for the whole batch: what is weighed, cut and set.
fn number(step: Step, ticket: Option<&Ticket>) -> String {
    let Some(ticket) = ticket else { return String::new() };
    match step {
        Step::Blank => words::discs_of(ticket.discs.iter().map(|disc| disc.count).sum()),
        Step::Coat(id) => coat_to_weigh(ticket, id).map_or_else(String::new, words::grams),
        Step::Sponge => words::off(ticket.lifted.0 * f64::from(ticket.pieces)),
        Step::Accents => {
            let each: u32 = ticket.accents.iter().map(|accent| accent.count).sum();
            words::pieces_of(each * ticket.pieces)
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

fn swatch(bench: Bench, step: Step) -> El {
    if !matches!(step, Step::Blank | Step::Coat(_)) {
        return el("span", "no-swatch");
    }
    let colors = memo(move || -> Option<(Color, Color)> {
        if !bench.drawn.get() {
            return None;
        }
        let board = bench.board.read();
        match step {
            Step::Coat(id) => test_tile::swatch(&board.made.1, id),
            _ => {
                let color = test_tile::blank_swatch(&board.made.1);
                Some((color, color))
            }
        }
    });
    el("span", "swatch")
        .style("--loose", move || colors.get().map_or_else(String::new, |(loose, _)| rgb(loose)))
        .style("--fired", move || colors.get().map_or_else(String::new, |(_, fired)| rgb(fired)))
}

fn rgb([r, g, b]: Color) -> String {
    format!("rgb({r} {g} {b})")
}
