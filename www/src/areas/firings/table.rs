//! The table of a program: every segment with its numbers, its time, and why.

use super::row::SegmentRow;
use super::state::ProgramsState;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::kiln::program::Program;
use leptos::prelude::*;

/// The table, and what there is to say of a number that was typed.
#[component]
pub fn ProgramTable(
    /// Which firing.
    firing: Firing,
    /// Its program.
    program: Memo<Option<Program>>,
) -> impl IntoView {
    let state = expect_context::<ProgramsState>();
    let names = Memo::new(move |_| {
        program.with(|program| {
            let segments = program.iter().flat_map(|program| &program.segments);
            segments.map(|segment| segment.name).collect::<Vec<_>>()
        })
    });
    let heads = words::PROGRAM_HEADS.into_iter().enumerate().map(|(at, head)| {
        let unseen = if at == 0 { "unseen" } else { "" };
        view! { <th scope="col"><span class=unseen>{head}</span></th> }
    });
    view! {
        <table class="program-table">
            <thead>
                <tr>{heads.collect_view()}</tr>
            </thead>
            <tbody>
                <For each=move || names.get() key=move |name| name.name(firing) let:name>
                    <SegmentRow firing name program />
                </For>
            </tbody>
        </table>
        <p class="refused" role="alert">{move || state.said.get()}</p>
    }
}
