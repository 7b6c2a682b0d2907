//! The sheet's head: the piece's name, how it is kept, and what the ticket is for.

use super::state::{StepItems, toggle_ticket};
use super::state_line::StateLine;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::recipe::limits::MOST_TITLE;
use leptos::prelude::*;

/// The sheet's head.
#[component]
pub fn Head() -> impl IntoView {
    view! {
        <header class="head">
            <div class="head-words">
                <h1>
                    <NameField />
                </h1>
                <StateLine />
            </div>
            <TicketFor />
        </header>
    }
}

/// The piece's name.
#[component]
fn NameField() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let title = Memo::new(move |_| piece.recipe.read().title.clone());
    let rename = move |event| {
        let name = tidy_name(&event_target_value(&event));
        if name != title.get_untracked() {
            piece.edit(words::did::NAME, |recipe| recipe.title = name);
        }
    };
    view! {
        <input
            class="title"
            type="text"
            aria-label=words::NAME
            maxlength=MOST_TITLE.to_string()
            autocomplete="off"
            spellcheck="false"
            prop:value=move || title.get()
            on:change=rename
        />
    }
}

/// A name without space around it or letters that are not seen, and not too long.
fn tidy_name(typed: &str) -> String {
    let seen = typed.chars().filter(|letter| !letter.is_control());
    seen.collect::<String>().trim().chars().take(MOST_TITLE).collect()
}

/// How many pieces the ticket is for; pressed, it opens the ticket.
#[component]
fn TicketFor() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let items = expect_context::<StepItems>();
    view! {
        <button
            class="ticket-for"
            aria-expanded=move || (nav.step.get() == Some(Step::Ticket)).to_string()
            on:click=move |_| toggle_ticket(nav, items)
        >
            <span class="second">{words::TICKET_FOR}</span>
            <b class="typable">{move || piece.recipe.with(words::pieces)}</b>
        </button>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_trimmed_and_cut_between_letters() {
        assert_eq!(tidy_name("  Rosée \n"), "Rosée");
        assert_eq!(tidy_name(&"é".repeat(MOST_TITLE + 1)), "é".repeat(MOST_TITLE));
    }
}
