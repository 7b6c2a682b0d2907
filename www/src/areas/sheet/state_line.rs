//! Under the name: that the piece is not kept, or what asks for a look, or since when it is kept.

use super::state::StepItems;
use crate::dom::clock;
use crate::model::demos::demos;
use crate::model::faults::StorageFault;
use crate::model::ids::PanelId;
use crate::model::records::{Origin, SaveState};
use crate::services::backup::Backups;
use crate::state::nav::Nav;
use crate::state::notices::pressing;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use leptos::prelude::*;

/// What the line says.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Line {
    /// The piece is not kept.
    NotKept(StorageFault),
    /// Another tab changed it at this time, and so did this one.
    Conflict(f64),
    /// So many notices ask for a look, the first of them at this step.
    LookAt(usize, Step),
    /// Where it came from.
    From(Origin),
    /// It came with the program.
    Invented,
    /// Its first change is on its way.
    NotYet,
    /// It is kept since this time.
    Kept(f64),
    /// It was taken off the shelf.
    Away,
}

/// What is said first: what may be lost comes before what may go wrong in the kiln. `looks` are the notices that ask for a
/// look and the step of the first one; `untouched` is what is said of a piece that nobody has changed.
fn line(
    state: SaveState,
    looks: (usize, Option<Step>),
    origin: Option<Origin>,
    untouched: impl FnOnce() -> Line,
) -> Line {
    match (state, looks, origin) {
        (SaveState::Not(fault), ..) => Line::NotKept(fault),
        (SaveState::Conflict(time), ..) => Line::Conflict(time),
        (_, (notices, Some(step)), _) => Line::LookAt(notices, step),
        (_, _, Some(origin)) => Line::From(origin),
        (SaveState::Untouched, ..) => untouched(),
        (SaveState::Since(time), ..) => Line::Kept(time),
        (SaveState::Away, ..) => Line::Away,
    }
}

/// The line under the name.
#[component]
pub fn StateLine() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let saving = expect_context::<Saving>();
    let untouched = move || {
        let invented = piece.id.get().is_none() || demos().contains(&piece.recipe.read());
        if invented { Line::Invented } else { Line::NotYet }
    };
    let looks = Memo::new(move |_| {
        let pressing = pressing(piece, nav);
        (pressing.len(), pressing.first().map(|notice| notice.step))
    });
    let line = Memo::new(move |_| line(saving.state.get(), looks.get(), piece.origin.get(), untouched));
    view! {
        <p class="state-line">
            {move || match line.get() {
                Line::NotKept(fault) => view! { <NotKept fault /> }.into_any(),
                Line::Conflict(time) => view! { <Conflict time /> }.into_any(),
                Line::LookAt(notices, step) => view! { <LookAt notices step /> }.into_any(),
                Line::From(origin) => said(words::origin(origin)),
                Line::Invented => said(words::INVENTED),
                Line::NotYet => said(words::NOT_YET),
                Line::Kept(time) => said(words::saved_at(&clock::local(time))),
                Line::Away => said(words::AWAY),
            }}
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
    let word = if fault == StorageFault::Full { words::BACK_UP_TO_FILE } else { words::BACK_UP };
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

    const QUIET: (usize, Option<Step>) = (0, None);
    const LOOK: (usize, Option<Step>) = (2, Some(Step::Slump));

    fn says(state: SaveState, looks: (usize, Option<Step>), origin: Option<Origin>) -> Line {
        line(state, looks, origin, || Line::Invented)
    }

    #[test]
    fn what_may_be_lost_comes_first() {
        let full = SaveState::Not(StorageFault::Full);
        assert_eq!(says(full, LOOK, Some(Origin::Link)), Line::NotKept(StorageFault::Full));
        assert_eq!(says(SaveState::Conflict(1.0), LOOK, Some(Origin::Link)), Line::Conflict(1.0));
    }

    #[test]
    fn then_what_may_go_wrong_then_where_it_came_from() {
        assert_eq!(says(SaveState::Since(1.0), LOOK, Some(Origin::File)), Line::LookAt(2, Step::Slump));
        assert_eq!(says(SaveState::Since(1.0), QUIET, Some(Origin::File)), Line::From(Origin::File));
    }

    #[test]
    fn else_how_it_is_kept() {
        assert_eq!(says(SaveState::Untouched, QUIET, None), Line::Invented);
        assert_eq!(says(SaveState::Since(1.0), QUIET, None), Line::Kept(1.0));
        assert_eq!(says(SaveState::Away, QUIET, None), Line::Away);
    }
}
