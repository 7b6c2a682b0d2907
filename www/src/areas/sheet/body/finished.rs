//! A finished size, typed: the mold and the disc that give it are found.

use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::typed_pair::read_pair;
use dappledome::base::units::Mm;
use dappledome::kiln::bench::Bench;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::kiln::fused::fit;
use dappledome::recipe::Recipe;
use dappledome::recipe::plan::Plan;
use dappledome::slump::finished::{FinishedSize, Fit, OutOfReach};
use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;

/// What came of a size that was asked for.
#[derive(Clone, Debug, PartialEq)]
enum Answer {
    /// It is not two lengths.
    NotUnderstood,
    /// No mold gives it.
    OutOfReach(OutOfReach),
    /// This gives it.
    Found(Fit),
}

/// The line: a field for the size, and the button that finds what gives it.
#[component]
pub fn FinishedLine() -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let field = NodeRef::<html::Input>::new();
    let answer = RwSignal::new(None);
    let find = move || {
        let typed = field.get_untracked().map(|field| field.value()).unwrap_or_default();
        let made = untrack(|| piece.made());
        let found = answer_to(&typed, &made.1, preferences.units.get_untracked());
        if let Answer::Found(fit) = &found {
            piece.edit(words::did::FINISHED_SIZE, |recipe| take(recipe, fit));
        }
        answer.set(Some(found));
    };
    let pressed = move |event: KeyboardEvent| match event.key().as_str() {
        "Enter" => find(),
        "Escape" => {
            if let Some(field) = field.get_untracked().filter(|field| !field.value().is_empty()) {
                field.set_value("");
                answer.set(None);
                event.stop_propagation();
            }
        }
        _ => {}
    };
    let said = move || {
        let form = &piece.recipe.read().mold.form;
        answer.read().as_ref().map(|answer| match answer {
            Answer::NotUnderstood => words::finished_help(preferences.units.get()).to_owned(),
            Answer::OutOfReach(why) => preferences.text(&words::out_of_reach(*why, form)),
            Answer::Found(fit) => preferences.text(&words::mold_found(fit)),
        })
    };
    let refused = move || !matches!(*answer.read(), None | Some(Answer::Found(_)));
    view! {
        <div class="finished-line">
            <label>
                <span class="label">{words::FINISHED}</span>
                <input
                    class="typed"
                    type="text"
                    autocomplete="off"
                    aria-label=words::FINISHED_SIZE
                    aria-invalid=move || refused().to_string()
                    placeholder=move || words::finished_example(preferences.units.get())
                    node_ref=field
                    on:keydown=pressed
                />
            </label>
            <button class="button" on:click=move |_| find()>
                {words::FIND_MOLD}
            </button>
            <p class="aside" role="status">{said}</p>
        </div>
    }
}

/// What comes of a size that was typed, of a plan's glass and with a mold like its own.
fn answer_to(typed: &str, plan: &Plan, units: Units) -> Answer {
    let Some((across, high)) = read_pair(typed, units) else { return Answer::NotUnderstood };
    let kiln = Kiln::guess(Guess::SmallBrick);
    match fit(plan, Bench::of(&kiln), FinishedSize { across: Mm(across), high: Mm(high) }) {
        Ok(fit) => Answer::Found(fit),
        Err(why) => Answer::OutOfReach(why),
    }
}

/// Takes a mold and a disc into the recipe.
fn take(recipe: &mut Recipe, fit: &Fit) {
    recipe.mold = fit.mold.clone();
    recipe.blank.diameter = fit.disc;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ask(typed: &str, recipe: &Recipe) -> Answer {
        answer_to(typed, &Plan::new(recipe).expect("it is sound").plan, Units::default())
    }

    #[test]
    fn a_size_becomes_a_recipe_that_can_be_made() {
        let mut recipe = Recipe::bare();
        let Answer::Found(fit) = ask("150 x 40", &recipe) else { panic!("it can be reached") };
        take(&mut recipe, &fit);
        assert!(Plan::new(&recipe).is_ok_and(|planned| planned.notices.is_empty()));
        assert_eq!(recipe.blank.diameter, recipe.mold.opening);
        assert_eq!(ask("15 x 4 cm", &recipe), ask("150 x 40", &recipe));
    }

    #[test]
    fn what_cannot_be_is_said() {
        assert_eq!(ask("wide", &Recipe::bare()), Answer::NotUnderstood);
        assert!(matches!(ask("150 x 140", &Recipe::bare()), Answer::OutOfReach(OutOfReach::TooHigh(_))));
    }
}
