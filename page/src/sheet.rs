//! The sheet: the piece's name, the recipe as a list of steps, the margin as a ticket, and its foot.

use super::choice::word;
use super::state::Bench;
use super::step::{self, step};
use super::{bodies, notices, words};
use dappledome::base::notice::Step;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{MOST_COATS, MOST_SHEETS, MOST_TITLE};
use dappledome::recipe::{Accents, Coat, Fall, Patches, Sponge};
use leptos::prelude::*;

/// The sheet.
pub fn sheet(bench: Bench) -> AnyView {
    view! {
        <section class="sheet" id="recipe" aria-label=words::RECIPE tabindex="-1">
            {head(bench)}
            <div class="list">
                {list(bench)}
                {add(bench)}
                <p class="aside sheet-forecast">{words::FORECAST}</p>
            </div>
            {foot(bench)}
        </section>
    }
    .into_any()
}

fn head(bench: Bench) -> AnyView {
    let title = Memo::new(move |_| bench.recipe.with(|recipe| recipe.title.clone()));
    let pieces = Memo::new(move |_| bench.recipe.with(words::pieces));
    let rename = move |text: String| {
        let text: String = text.trim().chars().take(MOST_TITLE).collect();
        if text != title.get_untracked() {
            bench.edit("name", &|recipe| recipe.title.clone_from(&text));
        }
    };
    view! {
        <header class="head">
            <div class="head-words">
                <h1>
                    <input
                        class="title"
                        type="text"
                        aria-label=words::NAME
                        maxlength=MOST_TITLE
                        autocomplete="off"
                        spellcheck="false"
                        prop:value=title
                        on:change:target=move |event| rename(event.target().value())
                    />
                </h1>
                {state_line(bench)}
            </div>
            <button
                class="ticket-for"
                aria-expanded=move || (bench.open.get() == Some(Step::Ticket)).to_string()
                on:click=move |_| bench.toggle(Step::Ticket)
            >
                <span class="second">{words::TICKET_FOR}</span>
                <b class="typable">{pieces}</b>
            </button>
        </header>
    }
    .into_any()
}

/// Under the name: what asks for a look, or where the recipe comes from.
fn state_line(bench: Bench) -> AnyView {
    let invented =
        Memo::new(move |_| bench.recipe.with(|now| bench.demos.with_value(|demos| demos.contains(now))));
    let filed = Memo::new(move |_| {
        bench.filed.with(|filed| filed.as_ref().is_some_and(|filed| bench.recipe.with(|now| now == filed)))
    });
    let pressing = Memo::new(move |_| {
        let pressing = notices::pressing(bench);
        (pressing.len(), pressing.first().map(|notice| notice.step))
    });
    view! {
        <p class="state-line">
            {move || match pressing.get() {
                (n, Some(step)) => {
                    view! {
                        <button class="look-at" on:click=move |_| go_to(bench, step)>
                            {words::to_look_at(n)}
                        </button>
                    }
                        .into_any()
                }
                _ if invented.get() => words::INVENTED.into_any(),
                _ if filed.get() => words::AS_FILED.into_any(),
                _ => words::NOT_KEPT.into_any(),
            }}
        </p>
    }
    .into_any()
}

fn go_to(bench: Bench, at: Step) {
    let at = if at == Step::Recipe { Step::Ticket } else { at };
    if bench.open.get_untracked() != Some(at) {
        bench.toggle(at);
    }
    request_animation_frame(move || {
        let id = format!("step-{}", step::key(at));
        if let Some(item) = document().get_element_by_id(&id).and_then(|body| body.parent_element()) {
            item.scroll_into_view();
        }
    });
}

fn list(bench: Bench) -> AnyView {
    let steps = Memo::new(move |_| {
        let open = bench.open.get() == Some(Step::Ticket);
        let remarks = bench.board.with(|board| {
            board.notices.iter().any(|notice| matches!(notice.step, Step::Recipe | Step::Ticket))
        });
        bench.recipe.with(|recipe| steps_of(recipe, open || remarks))
    });
    view! {
        <ol class="steps">
            <For each=move || steps.get() key=|at| step::key(*at) children=move |at| step(bench, at) />
        </ol>
    }
    .into_any()
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

/// What may still be added: a line of words.
fn add(bench: Bench) -> AnyView {
    let room = Memo::new(move |_| {
        bench.recipe.with(|recipe| {
            [
                recipe.coats.len() < MOST_COATS,
                recipe.blank.sheets.len() < MOST_SHEETS,
                recipe.sponge.is_none(),
                recipe.accents.is_none(),
            ]
        })
    });
    let add_sponge = move || {
        bench.edit("sponge", &|recipe| recipe.sponge = Some(Sponge::default()));
        bench.open.set(Some(Step::Sponge));
    };
    let add_accents = move || {
        bench.edit("accents", &|recipe| recipe.accents = Some(Accents::default()));
        bench.open.set(Some(Step::Accents));
    };
    let add_sheet = move || {
        bodies::add_sheet(bench);
        bench.open.set(Some(Step::Blank));
    };
    let words = move || {
        let [coat, sheet, sponge, accents] = room.get();
        view! {
            {coat.then(|| word(words::COAT, move || add_coat(bench)))}
            {sheet.then(|| word(words::SHEET, add_sheet))}
            {sponge.then(|| word(words::SPONGE, add_sponge))}
            {accents.then(|| word(words::ACCENTS, add_accents))}
        }
    };
    view! { <p class="add"><span class="second">{words::ADD}</span>{words}</p> }.into_any()
}

/// A coat of a powder that the recipe does not have yet: even if it is the first, else patches.
fn add_coat(bench: Bench) {
    const ORDER: [&str; 5] = ["straw", "rust", "lagoon", "coral", "moss"];
    let id = bench.recipe.with_untracked(Recipe::free_coat_id);
    bench.edit("added coat", &|recipe| {
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
}

/// The totals. The places of the kiln's hours and of the cost are kept free.
fn foot(bench: Bench) -> AnyView {
    let number = move |of: fn(&dappledome::shop::ticket::Ticket) -> String| {
        Memo::new(move |_| {
            let works = bench.board.with(|board| board.works);
            bench.ticket.with(|ticket| match ticket {
                Some(ticket) if works => of(ticket),
                _ => words::UNKNOWN.into(),
            })
        })
    };
    let powder = number(|ticket| words::grams(ticket.powders.iter().map(|powder| powder.ready.0).sum()));
    let finished = number(words::finished);
    let glass = number(words::discs);
    let total = |label: &'static str, value: Memo<String>| {
        view! {
            <div class="total">
                <dt>{label}</dt>
                <dd>{value}</dd>
            </div>
        }
    };
    view! {
        <footer class="foot" aria-label=words::TICKET>
            <dl>
                {total(words::POWDER_TO_WEIGH, powder)}
                {total(words::FINISHED, finished)}
                {total(words::GLASS, glass)}
            </dl>
        </footer>
    }
    .into_any()
}
