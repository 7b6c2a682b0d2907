//! Under the name: that the piece is not kept, or since when it is kept; and beside it what asks for a look.

use super::state::StepItems;
use crate::dom::clock;
use crate::model::demos::demos;
use crate::model::faults::StorageFault;
use crate::model::ids::PanelId;
use crate::model::records::{Origin, SaveState};
use crate::services::backup::Backups;
use crate::state::fired::Fired;
use crate::state::nav::Nav;
use crate::state::notices::pressing;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use leptos::prelude::*;

/// What the line says.
#[derive(Clone, Debug, PartialEq)]
enum Line {
    /// Something is tried and nothing of it kept.
    Trying(String),
    /// The piece is not kept.
    NotKept(StorageFault),
    /// Another tab changed it at this time, and so did this one.
    Conflict(f64),
    /// Where it came from.
    From(Origin),
    /// It came with the program.
    Invented,
    /// A change is on its way.
    Saving,
    /// It is kept since this time.
    Kept(f64),
    /// It was taken off the shelf.
    Away,
}

/// What is said of keeping. `holds` is whether the state was said of the piece as it stands; `invented`, whether it is one
/// that came with the program.
fn line(state: SaveState, holds: bool, origin: Option<Origin>, invented: bool) -> Line {
    match state {
        SaveState::Not(fault) => Line::NotKept(fault),
        SaveState::Conflict(time) => Line::Conflict(time),
        SaveState::Untouched if invented => Line::Invented,
        SaveState::Untouched => Line::Saving,
        _ if !holds => Line::Saving,
        SaveState::Away => Line::Away,
        SaveState::Since(time) => origin.map_or(Line::Kept(time), Line::From),
    }
}

/// The line under the name.
#[component]
pub fn StateLine() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let (saving, fired) = (expect_context::<Saving>(), expect_context::<Fired>());
    let invented = move || piece.id.get().is_none() || demos().contains(&piece.recipe.read());
    let looks = Memo::new(move |_| {
        let pressing = pressing(piece, fired, nav);
        pressing.first().map(|notice| (pressing.len(), notice.step))
    });
    let of_keeping =
        move || line(saving.state.get(), saving.holds_for(piece), piece.origin.get(), invented());
    let line = Memo::new(move |_| piece.trying().map_or_else(of_keeping, Line::Trying));
    let look_at = move || looks.get().map(|(notices, step)| view! { <LookAt notices step /> });
    view! {
        <p class="state-line">
            {move || match line.get() {
                Line::Trying(name) => said(words::trying(&name)),
                Line::NotKept(fault) => view! { <NotKept fault /> }.into_any(),
                Line::Conflict(time) => view! { <Conflict time /> }.into_any(),
                Line::From(origin) => said(words::origin(origin)),
                Line::Invented => said(words::INVENTED),
                Line::Saving => said(words::SAVING),
                Line::Kept(time) => said(words::saved_at(&clock::local(time))),
                Line::Away => said(words::AWAY),
            }}
            {look_at}
        </p>
    }
}

fn said(text: impl Into<Oco<'static, str>>) -> AnyView {
    let text = text.into();
    view! { <span>{text}" "</span> }.into_any()
}

/// That the piece is not kept, and a way out.
#[component]
fn NotKept(
    /// Why it is not.
    fault: StorageFault,
) -> impl IntoView {
    let backups = expect_context::<Backups>();
    let word = if fault.leaves_doubt() { words::BACK_UP_TO_FILE } else { words::BACK_UP };
    view! {
        {said(words::not_kept(fault))}
        <button class="word" on:click=move |_| backups.back_up(|_| {})>
            {word}
        </button>
    }
}

/// That two tabs changed the piece, and a word that lays the question on the table.
#[component]
fn Conflict(
    /// When the other tab did, ms since 1970.
    time: f64,
) -> impl IntoView {
    let nav = expect_context::<Nav>();
    view! {
        {said(words::changed_elsewhere(&clock::local(time)))}
        <button class="word" on:click=move |_| nav.open_panel(PanelId::CONFLICT)>
            {words::CHOOSE}
        </button>
    }
}

/// How many notices ask for a look; pressed, it goes to the first one.
#[component]
fn LookAt(
    /// How many.
    notices: usize,
    /// The step of the first one.
    step: Step,
) -> impl IntoView {
    let (nav, items) = (expect_context::<Nav>(), expect_context::<StepItems>());
    let step = if step == Step::Recipe { Step::Ticket } else { step };
    let go = move |_| {
        if nav.step.get_untracked() != Some(step) {
            nav.toggle_step(step);
        }
        items.show(step);
    };
    view! {
        <button class="look-at" on:click=go>
            {words::to_look_at(notices)}
        </button>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_be_lost_comes_first() {
        let full = SaveState::Not(StorageFault::Full);
        for holds in [true, false] {
            assert_eq!(line(full, holds, Some(Origin::Link), true), Line::NotKept(StorageFault::Full));
            let both = SaveState::Conflict(1.0);
            assert_eq!(line(both, holds, Some(Origin::Link), true), Line::Conflict(1.0));
        }
    }

    #[test]
    fn what_was_saved_is_said_only_of_what_stands_there() {
        for state in [SaveState::Since(1.0), SaveState::Away] {
            assert_eq!(line(state, false, None, false), Line::Saving, "{state:?}");
            assert_eq!(line(state, false, Some(Origin::Link), true), Line::Saving, "{state:?}");
        }
        assert_eq!(line(SaveState::Untouched, false, None, false), Line::Saving);
        assert_eq!(line(SaveState::Untouched, true, Some(Origin::Link), false), Line::Saving);
    }

    #[test]
    fn else_how_it_is_kept() {
        assert_eq!(line(SaveState::Untouched, false, None, true), Line::Invented);
        assert_eq!(line(SaveState::Since(1.0), true, Some(Origin::File), false), Line::From(Origin::File));
        assert_eq!(line(SaveState::Since(1.0), true, None, false), Line::Kept(1.0));
        assert_eq!(line(SaveState::Away, true, None, false), Line::Away);
    }
}
