//! The sheet: the piece's name, the recipe as a list of steps, the margin as a ticket, and its foot.

use super::choice::word;
use super::dom::{El, always, el, memo};
use super::keeping::State;
use super::state::{Area, Bench, Slip};
use super::step::{self, step};
use super::store::Fault;
use super::tray::{self, Tray};
use super::{backing, bodies, notices, words};
use dappledome::base::notice::Step;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{MOST_COATS, MOST_SHEETS, MOST_TITLE};
use dappledome::recipe::{Accents, Coat, Fall, Patches, Sponge};
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;
use web_sys::{Event, HtmlInputElement};

/// The sheet.
pub fn sheet(bench: Bench, tray: Tray) -> El {
    let list = el("div", "list")
        .with(list(bench))
        .with(add(bench))
        .when(move || bench.area.get() == Area::Tray, move || tray::panel(tray))
        .with(el("p", "aside sheet-forecast").says(words::FORECAST));
    el("section", "sheet")
        .is("id", "recipe")
        .is("aria-label", words::RECIPE)
        .is("tabindex", "-1")
        .with(head(bench))
        .with(list)
        .with(foot(bench))
}

fn head(bench: Bench) -> El {
    let field = el("input", "title")
        .is("type", "text")
        .is("aria-label", words::NAME)
        .is("maxlength", &MOST_TITLE.to_string())
        .is("autocomplete", "off")
        .is("spellcheck", "false");
    let (shown, typed): (HtmlInputElement, HtmlInputElement) = (field.cast(), field.cast());
    let title = memo(move || bench.recipe.with(|recipe| recipe.title.clone()));
    always(move || shown.set_value(&title.get()));
    let field = field.on("change", move |_: &Event| {
        let text: String = typed.value().trim().chars().take(MOST_TITLE).collect();
        if text != title.get_untracked() {
            bench.edit(words::did::NAME, &|recipe| recipe.title.clone_from(&text));
        }
    });
    let words = el("div", "head-words").with(el("h1", "").with(field)).with(state_line(bench));
    let ticket_for = el("button", "ticket-for")
        .live_flag("aria-expanded", move || bench.open.get() == Some(Step::Ticket))
        .press(move || turn_ticket(bench))
        .with(el("span", "second").says(words::TICKET_FOR))
        .with(el("b", "typable").reads(move || bench.recipe.with(words::pieces)));
    el("header", "head").with(words).with(ticket_for)
}

/// Under the name: that the piece is not kept, or what asks for a look, or since when it is kept.
fn state_line(bench: Bench) -> El {
    let pressing = memo(move || {
        let pressing = notices::pressing(bench);
        (pressing.len(), pressing.first().map(|notice| notice.step))
    });
    let (state, origin) = (bench.keep.state, bench.origin);
    el("p", "state-line").holds(move || match (state.get(), pressing.get(), origin.get()) {
        // What may be lost comes before what may go wrong in the kiln.
        (State::Not(fault), ..) => {
            let words = if fault == Fault::Full { words::BACK_UP_TO_FILE } else { words::BACK_UP };
            let back_up = move || backing::back_up(bench, |_| {});
            vec![said(words::not_kept(fault)), word(words, back_up)]
        }
        (State::Conflict(time), ..) => {
            let choose = move || bench.slip.set(Slip::Conflict(time));
            vec![said(&words::changed_elsewhere(time)), word(words::CHOOSE, choose)]
        }
        (_, (n, Some(step)), _) => {
            vec![el("button", "look-at").says(&words::to_look_at(n)).press(move || go_to(bench, step))]
        }
        (_, _, Some(origin)) => vec![said(origin)],
        (State::Untouched, ..) if bench.id.get().is_none() => vec![said(words::INVENTED)],
        (State::Untouched, ..) => vec![said(if invented(bench) { words::INVENTED } else { words::NOT_YET })],
        (State::Since(time), ..) => vec![said(&words::saved_at(time))],
        (State::Away, ..) => vec![said(words::AWAY)],
    })
}

fn said(words: &str) -> El {
    el("span", "").says(words).says(" ")
}

fn invented(bench: Bench) -> bool {
    bench.recipe.with(|now| bench.demos.with_value(|demos| demos.contains(now)))
}

fn go_to(bench: Bench, at: Step) {
    let at = if at == Step::Recipe { Step::Ticket } else { at };
    if bench.open.get_untracked() != Some(at) {
        bench.toggle(at);
    }
    show(at);
}

/// Opens the ticket where it can be seen, however far the list is scrolled, or closes it.
fn turn_ticket(bench: Bench) {
    bench.toggle(Step::Ticket);
    show(Step::Ticket);
}

/// Brings a step into view, once it is there.
fn show(at: Step) {
    request_animation_frame(move || {
        let id = format!("step-{}", step::key(at));
        if let Some(item) = document().get_element_by_id(&id).and_then(|body| body.parent_element()) {
            item.scroll_into_view();
        }
    });
}

fn list(bench: Bench) -> El {
    let steps = memo(move || {
        let open = bench.open.get() == Some(Step::Ticket);
        let remarks = bench.board.with(|board| {
            board.notices.iter().any(|notice| matches!(notice.step, Step::Recipe | Step::Ticket))
        });
        bench.recipe.with(|recipe| steps_of(recipe, open || remarks))
    });
    el("ol", "steps").each(steps, move |at| step(bench, at))
}

/// The steps in the order of making. What is not in the recipe has no row.
fn steps_of(recipe: &Recipe, ticket: bool) -> Vec<Step> {
    let mut steps = Vec::new();
    if ticket {
        steps.push(Step::Ticket);
    }
    steps.push(Step::Blank);
    steps.extend(recipe.coats.iter().map(|coat| Step::Coat(coat.id)));
    if recipe.sponge.is_some() {
        steps.push(Step::Sponge);
    }
    steps.push(Step::Fuse);
    if recipe.accents.is_some() {
        steps.push(Step::Accents);
    }
    steps.push(Step::Slump);
    steps
}

/// What may be added: its name, and how.
type Addition = (&'static str, fn(Bench));

/// What may still be added: a line of words.
fn add(bench: Bench) -> El {
    let room = memo(move || {
        bench.recipe.with(|recipe| {
            [
                recipe.coats.len() < MOST_COATS,
                recipe.blank.sheets.len() < MOST_SHEETS,
                recipe.sponge.is_none(),
                recipe.accents.is_none(),
            ]
        })
    });
    let words = move || {
        let all: [Addition; 4] = [
            (words::COAT, add_coat),
            (words::SHEET, add_sheet),
            (words::SPONGE, add_sponge),
            (words::ACCENTS, add_accents),
        ];
        let possible = all.into_iter().zip(room.get()).filter(|(_, room)| *room);
        possible.map(|((name, add), _)| word(name, move || add(bench))).collect()
    };
    el("p", "add").with(el("span", "second").says(words::ADD)).holds(words)
}

fn add_sheet(bench: Bench) {
    bodies::add_sheet(bench);
    bench.open.set(Some(Step::Blank));
    show(Step::Blank);
}

fn add_sponge(bench: Bench) {
    bench.edit(words::did::SPONGE, &|recipe| recipe.sponge = Some(Sponge::default()));
    bench.open.set(Some(Step::Sponge));
    show(Step::Sponge);
}

fn add_accents(bench: Bench) {
    bench.edit(words::did::ACCENTS, &|recipe| recipe.accents = Some(Accents::default()));
    bench.open.set(Some(Step::Accents));
    show(Step::Accents);
}

/// A coat of a powder that the recipe does not have yet: even if it is the first, else patches.
fn add_coat(bench: Bench) {
    const ORDER: [&str; 5] = ["straw", "rust", "lagoon", "coral", "moss"];
    let id = bench.recipe.with_untracked(Recipe::free_coat_id);
    bench.edit(words::did::ADDED_COAT, &|recipe| {
        let used =
            |glass: &str| recipe.coats.iter().any(|coat| coat.powder.iter().any(|part| part.glass == glass));
        let glass = ORDER.into_iter().find(|glass| !used(glass)).unwrap_or(ORDER[0]);
        let fall = if recipe.coats.is_empty() {
            Fall::Even { depth: dappledome::base::units::Mm(dappledome::recipe::limits::EVEN_DEPTH.usual) }
        } else {
            Fall::Patches(Patches::usual())
        };
        recipe.coats.push(Coat::new(id, glass, fall));
    });
    bench.finer.set(false);
    bench.open.set(Some(Step::Coat(id)));
    show(Step::Coat(id));
}

/// The totals. The places of the kiln's hours and of the cost are kept free.
fn foot(bench: Bench) -> El {
    let total = move |label: &str, of: fn(&Ticket) -> String| {
        let number = move || {
            let works = bench.board.with(|board| board.works);
            bench.ticket.with(|ticket| match ticket {
                Some(ticket) if works => bench.shown(&of(ticket)),
                _ => words::UNKNOWN.into(),
            })
        };
        el("div", "total").with(el("dt", "").says(label)).with(el("dd", "").reads(number))
    };
    let powder = |ticket: &Ticket| words::grams(ticket.powders.iter().map(|powder| powder.ready.0).sum());
    let totals = el("dl", "")
        .with(total(words::POWDER_TO_WEIGH, powder))
        .with(total(words::FINISHED, words::finished))
        .with(total(words::GLASS, words::discs));
    // Where there is no room for the words in the head, the totals themselves open the ticket.
    let whole = el("button", "foot-whole")
        .is("aria-label", words::TICKET)
        .live_flag("aria-expanded", move || bench.open.get() == Some(Step::Ticket))
        .press(move || turn_ticket(bench));
    el("footer", "foot").is("aria-label", words::TICKET).with(totals).with(whole)
}
