//! The steps of the recipe, in the order of making.

use super::row::StepRow;
use super::state::step_number;
use crate::state::fired::Fired;
use crate::state::nav::Nav;
use crate::state::notices;
use crate::state::workpiece::Workpiece;
use dappledome::base::notice::{Notice, Step};
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The steps as a list.
#[component]
pub fn StepList() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let fired = expect_context::<Fired>();
    let steps = Memo::new(move |_| {
        let open = nav.step.get() == Some(Step::Ticket);
        let on_ticket = |notice: &Notice| matches!(notice.step, Step::Recipe | Step::Ticket);
        let remarks = notices::all(piece, fired).iter().any(on_ticket);
        steps_of(&piece.recipe.read(), open || remarks)
    });
    view! {
        <ol class="steps">
            <For each=move || steps.get() key=|step| step_number(*step) let:step>
                <StepRow step />
            </For>
        </ol>
    }
}

/// The steps of a recipe. What is not in it has no row.
pub fn steps_of(recipe: &Recipe, ticket: bool) -> Vec<Step> {
    let ticket = ticket.then_some(Step::Ticket);
    let coats = recipe.coats.iter().map(|coat| Step::Coat(coat.id));
    let sponge = recipe.sponge.as_ref().map(|_| Step::Sponge);
    let accents = recipe.accents.as_ref().map(|_| Step::Accents);
    let until_sifted = ticket.into_iter().chain([Step::Blank]).chain(coats).chain(sponge);
    let stem = recipe.stem.map(|_| Step::Stem);
    until_sifted.chain([Step::Fuse]).chain(accents).chain([Step::Slump]).chain(stem).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::{Accents, Coat, Fall, Patches, Sponge, Stem};

    #[test]
    fn the_steps_come_in_the_order_of_making() {
        let bare = Recipe::bare();
        assert_eq!(steps_of(&bare, false), [Step::Blank, Step::Fuse, Step::Slump]);
        let coat = |id| Coat::new(id, "straw", Fall::Patches(Patches::usual()));
        let full = Recipe {
            coats: vec![coat(5), coat(2)],
            sponge: Some(Sponge::default()),
            accents: Some(Accents::default()),
            stem: Some(Stem::default()),
            ..bare
        };
        let coats = [Step::Coat(5), Step::Coat(2)];
        let [first, second] = coats;
        let sifted = [Step::Ticket, Step::Blank, first, second, Step::Sponge];
        let fired = [Step::Fuse, Step::Accents, Step::Slump, Step::Stem];
        let all = [&sifted[..], &fired].concat();
        assert_eq!(steps_of(&full, true), all);
    }

    #[test]
    fn no_two_steps_have_one_number() {
        let mut numbers: Vec<u64> = [
            Step::Recipe,
            Step::Ticket,
            Step::Blank,
            Step::Sponge,
            Step::Fuse,
            Step::Accents,
            Step::Slump,
            Step::Stem,
            Step::Coat(0),
            Step::Coat(1),
            Step::Coat(u32::MAX),
        ]
        .map(step_number)
        .to_vec();
        numbers.sort_unstable();
        numbers.dedup();
        assert_eq!(numbers.len(), 11);
    }
}
