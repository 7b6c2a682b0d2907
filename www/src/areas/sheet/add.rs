//! What may still be added to the recipe: a line of words.

use super::body::add_sheet;
use super::state::StepItems;
use crate::controls::color_pair::ColorPair;
use crate::state::nav::Nav;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::optics::test_tile::{Color, Ground, swatch_depth};
use dappledome::recipe::limits::{MOST_COATS, MOST_SHEETS};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Recipe, Sponge, Stem};
use leptos::prelude::*;

/// The powders of new coats, in the order in which they are offered.
const NEW_POWDERS: [&str; 5] = ["straw", "rust", "lagoon", "coral", "moss"];

/// What may be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Addition {
    Coat,
    Sheet,
    Sponge,
    Accents,
    Stem,
}

impl Addition {
    const ALL: [Self; 5] = [Self::Coat, Self::Sheet, Self::Sponge, Self::Accents, Self::Stem];

    /// Its word; a coat comes with the powder it would have.
    fn word(self, recipe: &Recipe) -> String {
        match self {
            Self::Coat => words::coat_of(&recipe.glasses.name(new_powder(recipe))),
            Self::Sheet => words::SHEET.into(),
            Self::Sponge => words::SPONGE.into(),
            Self::Accents => words::ACCENTS.into(),
            Self::Stem => words::did::STEM.into(),
        }
    }

    /// The name of adding it, as a step of the history.
    fn did(self) -> &'static str {
        match self {
            Self::Coat => words::did::ADDED_COAT,
            Self::Sheet => words::did::ADDED_SHEET,
            Self::Sponge => words::did::SPONGE,
            Self::Accents => words::did::ACCENTS,
            Self::Stem => words::did::STEM,
        }
    }

    /// Whether a recipe has room for it.
    fn fits(self, recipe: &Recipe) -> bool {
        match self {
            Self::Coat => recipe.coats.len() < MOST_COATS,
            Self::Sheet => recipe.blank.sheets.len() < MOST_SHEETS,
            Self::Sponge => recipe.sponge.is_none(),
            Self::Accents => recipe.accents.is_none(),
            Self::Stem => recipe.stem.is_none(),
        }
    }

    /// The step that a recipe has it in once it is added.
    fn step(self, recipe: &Recipe) -> Step {
        match self {
            Self::Coat => Step::Coat(recipe.free_coat_id()),
            Self::Sheet => Step::Blank,
            Self::Sponge => Step::Sponge,
            Self::Accents => Step::Accents,
            Self::Stem => Step::Stem,
        }
    }

    fn add_to(self, recipe: &mut Recipe) {
        match self {
            Self::Coat => recipe.coats.push(recipe.next_coat(new_powder(recipe))),
            Self::Sheet => add_sheet(recipe),
            Self::Sponge => recipe.sponge = Some(Sponge::default()),
            Self::Accents => recipe.accents = Some(Accents::default()),
            Self::Stem => recipe.stem = Some(Stem::default()),
        }
    }
}

/// The first powder on offer that the recipe does not have yet.
fn new_powder(recipe: &Recipe) -> &'static str {
    let powders = recipe.coats.iter().flat_map(|coat| &coat.powder);
    let used: Vec<&str> = powders.map(|part| part.glass.as_str()).collect();
    NEW_POWDERS.into_iter().find(|glass| !used.contains(glass)).unwrap_or(NEW_POWDERS[0])
}

/// The colors of the next coat, loose and fired on all there is.
fn new_coat_colors(recipe: &Recipe, plan: &Plan) -> Option<(Color, Color)> {
    let powder = new_powder(recipe);
    let (coat, glass) = (recipe.next_coat(powder), recipe.glasses.find(powder)?);
    Some(Ground::on_all(plan).powder(glass, swatch_depth(&coat.fall)))
}

/// The line of words; each adds something and opens its step.
#[component]
pub fn Additions() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let items = expect_context::<StepItems>();
    let possible = Memo::new(move |_| {
        piece.recipe.with(|recipe| {
            Addition::ALL.into_iter().filter(|addition| addition.fits(recipe)).collect::<Vec<_>>()
        })
    });
    let add = move |addition: Addition| {
        let step = piece.recipe.with_untracked(|recipe| addition.step(recipe));
        piece.edit(addition.did(), |recipe| addition.add_to(recipe));
        if addition == Addition::Coat {
            nav.details.set(false);
            items.draw_out_powders_of(step);
        }
        nav.step.set(Some(step));
        items.show(step);
    };
    view! {
        <p class="add">
            <span class="second">{words::ADD}</span>
            <For each=move || possible.get() key=|addition| *addition let:addition>
                <button class="word" on:click=move |_| add(addition)>
                    {(addition == Addition::Coat).then(|| view! { <NewCoatColors /> })}
                    {move || addition.word(&piece.recipe.read())}
                </button>
            </For>
        </p>
    }
}

/// The colors of the coat that would come next.
#[component]
fn NewCoatColors() -> impl IntoView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    let colors = Memo::new(move |_| {
        let made = piece.made();
        if viewing.drawn.get() { new_coat_colors(&made.0, &made.1) } else { None }
    });
    view! { <ColorPair colors /> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::Fall;

    fn fitting(recipe: &Recipe) -> Vec<Addition> {
        Addition::ALL.into_iter().filter(|addition| addition.fits(recipe)).collect()
    }

    #[test]
    fn what_is_there_once_is_not_offered_twice() {
        let mut recipe = Recipe::bare();
        assert_eq!(fitting(&recipe), Addition::ALL);
        for addition in [Addition::Sponge, Addition::Accents, Addition::Stem] {
            addition.add_to(&mut recipe);
        }
        assert_eq!(fitting(&recipe), [Addition::Coat, Addition::Sheet]);
    }

    #[test]
    fn coats_and_sheets_are_added_until_there_are_most() {
        let mut recipe = Recipe::bare();
        for addition in [Addition::Coat, Addition::Sheet] {
            for _ in 0..MOST_COATS + MOST_SHEETS {
                if addition.fits(&recipe) {
                    addition.add_to(&mut recipe);
                }
            }
        }
        assert_eq!((recipe.coats.len(), recipe.blank.sheets.len()), (MOST_COATS, MOST_SHEETS));
        assert_eq!(fitting(&recipe), [Addition::Sponge, Addition::Accents, Addition::Stem]);
    }

    #[test]
    fn a_new_coat_is_of_another_powder_and_found_at_its_step() {
        let mut recipe = Recipe::bare();
        for at in 0..=NEW_POWDERS.len() {
            let step = Addition::Coat.step(&recipe);
            Addition::Coat.add_to(&mut recipe);
            let coat = &recipe.coats[at];
            assert_eq!(step, Step::Coat(coat.id));
            assert_eq!(matches!(coat.fall, Fall::Even { .. }), at == 0, "the first is even");
            assert_eq!(coat.powder[0].glass, NEW_POWDERS[at % NEW_POWDERS.len()]);
        }
    }
}
