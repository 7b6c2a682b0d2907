//! Everything that was done, as a list: a press goes back to where it was just done, or forward to it.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::panel::PanelHead;
use crate::controls::part::{Draws, slip_part};
use crate::model::ids::PanelId;
use crate::model::records::Version;
use crate::state::history::History;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId("history"),
    word: PanelWord::BehindUndo(words::STEPS),
    view: || slip_part(words::STEPS, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <Steps /> }.into_any())
}

/// A step: its place from the first on, which is how the piece stood before anything was done, and its name.
type Step = (usize, String);

/// Everything that was done, the last step first.
#[component]
fn Steps() -> impl IntoView {
    let history = expect_context::<Workpiece>().history;
    let steps = Memo::new(move |_| history.with(steps));
    let now = Memo::new(move |_| history.with(now));
    view! {
        <div class="slip">
            <PanelHead title=words::STEPS />
            <ol class="step-list">
                <For each=move || steps.get() key=Step::clone let((at, name))>
                    <StepLine at name now />
                </For>
            </ol>
        </div>
    }
}

/// One step.
#[component]
fn StepLine(
    /// Its place from the first on.
    at: usize,
    /// What was done.
    name: String,
    /// The step at which the piece stands.
    now: Memo<usize>,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let ahead = move || at > now.get();
    let go = move |_| piece.step_by(at as isize - now.get_untracked() as isize);
    view! {
        <li>
            <button
                class="button step-line"
                class:ahead=ahead
                aria-current=move || (at == now.get()).then_some("step")
                on:click=go
            >
                {words::capital(&name)}
            </button>
        </li>
    }
}

fn steps(history: &History<Version>) -> Vec<Step> {
    let (back, forward) = history.names();
    let names = forward.into_iter().rev().chain(back).chain([words::AT_FIRST.to_owned()]);
    let names: Vec<String> = names.collect();
    (0..names.len()).rev().zip(names).collect()
}

/// The last step done is where the piece stands.
fn now(history: &History<Version>) -> usize {
    history.names().0.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::records::Version;
    use dappledome::base::seed::Seed;
    use dappledome::recipe::Recipe;
    use dappledome::recipe::piece::Piece;

    fn version() -> Version {
        Version { id: None, piece: Piece::new(Recipe::bare(), Seed(1)) }
    }

    #[test]
    fn a_step_keeps_its_place_when_it_is_taken_back() {
        let mut history = History::default();
        let listed = |history: &History<Version>| (steps(history), now(history));
        assert_eq!(listed(&history), (vec![(0, words::AT_FIRST.into())], 0));
        ["one", "two", "three"].into_iter().for_each(|name| history.note(name, 0.0, version));
        let all = [(3, "three"), (2, "two"), (1, "one"), (0, words::AT_FIRST)];
        let all = all.map(|(at, name)| (at, name.to_owned())).to_vec();
        assert_eq!(listed(&history), (all.clone(), 3));
        history.step(version(), -2);
        assert_eq!(listed(&history), (all, 1));
    }
}
