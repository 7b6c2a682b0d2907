//! What can be done with a coat as a whole.

use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::recipe::limits::MOST_COATS;
use dappledome::recipe::{Coat, Recipe};
use leptos::prelude::*;

/// Moves a coat, copies it, takes it out.
#[component]
pub fn CoatMenu(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let move_by = move |by| piece.edit(words::did::ORDER, |recipe| move_coat(recipe, id, by));
    let take_out = move |_| {
        if nav.step.get_untracked() == Some(Step::Coat(id)) {
            nav.step.set(None);
        }
        piece.edit(words::did::COAT_OUT, |recipe| recipe.coats.retain(|coat| coat.id != id));
    };
    view! {
        <div class="coat-menu">
            <button class="word" on:click=move |_| move_by(-1)>
                {words::MOVE_EARLIER}
            </button>
            <button class="word" on:click=move |_| move_by(1)>
                {words::MOVE_LATER}
            </button>
            <button
                class="word"
                on:click=move |_| piece.edit(words::did::COPY, |recipe| copy_coat(recipe, id))
            >
                {words::COPY}
            </button>
            <button class="word" on:click=take_out>
                {words::TAKE_OUT}
            </button>
        </div>
    }
}

/// Has a coat sifted so many places later, or earlier, as far as there are coats.
fn move_coat(recipe: &mut Recipe, id: u32, by: isize) {
    let Some(at) = place(recipe, id) else { return };
    let to = at.saturating_add_signed(by).min(recipe.coats.len() - 1);
    recipe.coats.swap(at, to);
}

/// Lays another coat like this one on it, if there is room for one.
fn copy_coat(recipe: &mut Recipe, id: u32) {
    let free = recipe.free_coat_id();
    let Some(at) = place(recipe, id) else { return };
    if recipe.coats.len() < MOST_COATS {
        let mut copy = Coat { id: free, ..recipe.coats[at].clone() };
        copy.layout.falls_with = None;
        recipe.coats.insert(at + 1, copy);
    }
}

fn place(recipe: &Recipe, id: u32) -> Option<usize> {
    recipe.coats.iter().position(|coat| coat.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::{Fall, Patches};

    fn recipe() -> Recipe {
        let coats = [(4, "straw"), (7, "rust"), (9, "moss")];
        let coats = coats.map(|(id, glass)| Coat::new(id, glass, Fall::Patches(Patches::usual())));
        Recipe { coats: coats.to_vec(), ..Recipe::bare() }
    }

    fn order(recipe: &Recipe) -> Vec<u32> {
        recipe.coats.iter().map(|coat| coat.id).collect()
    }

    #[test]
    fn a_coat_moves_as_far_as_there_are_coats() {
        let mut recipe = recipe();
        move_coat(&mut recipe, 4, 1);
        assert_eq!(order(&recipe), [7, 4, 9]);
        move_coat(&mut recipe, 7, -1);
        move_coat(&mut recipe, 9, 1);
        move_coat(&mut recipe, 1, 1);
        assert_eq!(order(&recipe), [7, 4, 9]);
    }

    #[test]
    fn a_copy_lies_on_its_coat_under_an_id_of_its_own() {
        let mut recipe = recipe();
        copy_coat(&mut recipe, 7);
        let copy = &recipe.coats[2];
        assert_eq!(copy.powder, recipe.coats[1].powder);
        assert!(![4, 7, 9].contains(&copy.id));
        (0..MOST_COATS).for_each(|_| copy_coat(&mut recipe, 7));
        assert_eq!(recipe.coats.len(), MOST_COATS);
    }
}
