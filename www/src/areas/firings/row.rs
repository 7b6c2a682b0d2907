//! A segment as a row; pressed on its name, it opens on the reason, the source and the usual value of each number.

use super::numbers::{self, PLACES, Place, Which, values};
use super::state::ProgramsState;
use crate::controls::number::Number;
use crate::words;
use dappledome::base::firing::{Firing, SegmentName};
use dappledome::kiln::program::Program;
use dappledome::kiln::segment::{Segment, Source};
use leptos::prelude::*;

/// The row, and its reasons while they are open.
#[component]
pub fn SegmentRow(
    /// Which firing.
    firing: Firing,
    /// Which segment.
    name: SegmentName,
    /// The program.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let segment = Memo::new(move |_| {
        program.with(|program| program.as_ref().and_then(|program| program.segment(name).cloned()))
    });
    let takes = Memo::new(move |_| {
        program.with(|program| {
            let program = program.as_ref()?;
            let at = program.segments.iter().position(|segment| segment.name == name)?;
            program.runs.get(at).map(|run| words::hours_long(run.takes))
        })
    });
    let which = Which { firing, segment: name };
    let open = Memo::new(move |_| state.reasons.get() == Some(name));
    let why = move || segment.with(|segment| segment.as_ref().map(governing));
    let point = move || {
        if state.pointed.get_untracked() != Some(name) {
            state.pointed.set(Some(name));
        }
    };
    let cells = PLACES.map(|place| view! { <td><Cell which place segment /></td> });
    view! {
        <tr class:open=open on:focusin=move |_| point() on:pointerenter=move |_| point()>
            <th scope="row">
                <SegmentLabel which open />
            </th>
            {cells}
            <td>{takes}</td>
            <td class="why-cell">{move || why().map(|why| state.preferences.text(&why))}</td>
        </tr>
        <Show when=move || open.get()>
            <tr class="reasons">
                <td></td>
                <td colspan="5">
                    <Reasons which segment />
                </td>
            </tr>
        </Show>
    }
}

/// Its name: pressed, it opens the reasons; pressed twice, it lets all its numbers be as usual.
#[component]
fn SegmentLabel(
    /// The segment.
    which: Which,
    /// Whether its reasons are open.
    open: Memo<bool>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let toggle = move |_| {
        state.reasons.update(|now| *now = (*now != Some(which.segment)).then_some(which.segment));
    };
    let take_back = move |_| {
        let yours: Vec<Place> = PLACES
            .into_iter()
            .filter(|place| state.piece.recipe.with_untracked(|recipe| which.is_yours(recipe, *place)))
            .collect();
        if !yours.is_empty() {
            state.piece.edit(words::DID_PROGRAM, |recipe| {
                yours.iter().for_each(|place| which.set(recipe, *place, None));
            });
        }
    };
    view! {
        <button
            class="segment-name"
            aria-expanded=move || open.get().to_string()
            on:click=toggle
            on:dblclick=take_back
        >
            {words::segment(which.segment, which.firing)}
        </button>
    }
}

/// One number: to be typed over where it is the maker's to set, else as it follows from the rest.
#[component]
fn Cell(
    /// The segment.
    which: Which,
    /// Which number of it.
    place: Place,
    /// The segment as it is.
    segment: Memo<Option<Segment>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let value = move || segment.with(|segment| segment.as_ref().map(|segment| values(segment, place).0));
    let Some((unit, limit)) = which.range(place) else {
        return view! { <Follows which place segment /> }.into_any();
    };
    let set = move |value| state.piece.edit(words::DID_PROGRAM, |recipe| which.set(recipe, place, value));
    let is_yours = move || which.is_yours(&state.piece.recipe.read(), place);
    let take_back = move |()| {
        if untrack(is_yours) {
            state.said.set(None);
            set(None);
        }
    };
    let name = words::number_of(words::place(place as usize), which.segment, which.firing);
    view! {
        <Number
            name=Signal::stored(name)
            unit
            limit
            value=Signal::derive(value)
            yours=Signal::derive(is_yours)
            set=Callback::new(move |value| set(Some(value)))
            usual=Callback::new(take_back)
            said=state.said
        />
    }
    .into_any()
}

/// A number that follows from the rest.
#[component]
fn Follows(
    /// The segment.
    which: Which,
    /// Which number of it.
    place: Place,
    /// The segment as it is.
    segment: Memo<Option<Segment>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let said = move || {
        let units = state.preferences.units.get();
        segment.with(|segment| Some(numbers::said(which, segment.as_ref()?, place, units)))
    };
    view! { <span>{said}</span> }
}

/// Reason, source and usual value of each number.
#[component]
fn Reasons(
    /// The segment.
    which: Which,
    /// The segment as it is.
    segment: Memo<Option<Segment>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let lines = move || {
        let units = state.preferences.units.get();
        segment.with(|segment| {
            let segment = segment.as_ref()?;
            let recipe = state.piece.recipe.read();
            let line = |place: Place| {
                let (why, source) = reason(segment, place);
                let yours = which.range(place).filter(|_| which.is_yours(&recipe, place));
                let usual = yours.map(|(unit, limit)| unit.say(values(segment, place).1, &limit, units));
                let said = words::full_reason(words::place(place as usize), why, source, usual);
                (state.preferences.text(&said), yours.is_some(), place)
            };
            let told = PLACES.into_iter().filter(|place| tells(which, segment, *place));
            Some(told.map(line).collect::<Vec<_>>())
        })
    };
    let take_back =
        move |place| state.piece.edit(words::DID_PROGRAM, |recipe| which.set(recipe, place, None));
    move || {
        lines()
            .into_iter()
            .flatten()
            .map(|(said, yours, place)| {
                let word = yours.then(|| {
                    view! {
                        " "
                        <button class="word" on:click=move |_| take_back(place)>
                            {words::AS_USUAL_AGAIN}
                        </button>
                    }
                });
                view! { <p class="aside">{said}{word}</p> }
            })
            .collect_view()
    }
}

/// Whether there is anything to tell of a number: a hold of none needs no reason.
fn tells(which: Which, segment: &Segment, place: Place) -> bool {
    match place {
        Place::Hold => segment.hold.value.0 > 0.0 || segment.hold.yours,
        Place::Rate | Place::To => which.range(place).is_some() || segment.name == SegmentName::Off,
    }
}

fn reason(segment: &Segment, place: Place) -> (&str, Source) {
    match place {
        Place::Rate => (&segment.pace.why, segment.pace.source),
        Place::To => (&segment.to.why, segment.to.source),
        Place::Hold => (&segment.hold.why, segment.hold.source),
    }
}

/// The reason that says most of a segment, in one sentence.
fn governing(segment: &Segment) -> String {
    let place = match segment.name {
        SegmentName::Squeeze | SegmentName::Anneal => Place::Hold,
        SegmentName::Off => Place::To,
        _ => Place::Rate,
    };
    words::first_of(reason(segment, place).0)
}
