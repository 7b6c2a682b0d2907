//! A step in one line: its name, and what it says while it is closed.

use crate::fields::others::SPONGE;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::base::shown::Units;
use dappledome::recipe::{Recipe, Sponge};

/// What a step is called: a coat by its powder.
pub fn name(step: Step, recipe: &Recipe) -> String {
    match step {
        Step::Coat(id) => words::powder_of(recipe, id),
        other => words::step(other).into(),
    }
}

/// What a step says while it is closed, lengths and temperatures in mm and °C; `rolls` are those of the sponge, once counted.
pub fn summary(step: Step, recipe: &Recipe, rolls: Option<u32>, units: Units) -> String {
    match step {
        Step::Blank => words::blank(recipe),
        Step::Coat(id) => recipe.coat(id).map_or_else(String::new, words::coat),
        Step::Sponge => recipe.sponge.as_ref().map_or_else(String::new, |sponge| dabs(sponge, rolls)),
        Step::Fuse => words::fuse(recipe),
        Step::Accents => words::accents(recipe),
        Step::Slump => words::slump(recipe, units),
        Step::Stem => words::stem(recipe),
        Step::Ticket | Step::Recipe => String::new(),
    }
}

fn dabs(sponge: &Sponge, rolls: Option<u32>) -> String {
    let [how_damp, ..] = SPONGE else { return String::new() };
    words::sponge(how_damp.word(sponge.lift.0).unwrap_or_default(), sponge, rolls)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Mm;
    use dappledome::recipe::{Coat, Fall};

    fn recipe() -> Recipe {
        let coat = Coat::new(3, "straw", Fall::Even { depth: Mm(0.26) });
        let sponge = Sponge { lift: Mm(0.16), passes: 2.0, ..Sponge::default() };
        Recipe { coats: vec![coat], sponge: Some(sponge), ..Recipe::bare() }
    }

    #[test]
    fn a_coat_is_called_by_its_powder_and_the_rest_by_their_work() {
        let names = [Step::Coat(3), Step::Coat(4), Step::Fuse].map(|step| name(step, &recipe()));
        assert_eq!(names, ["Straw", "", "Full fuse"]);
    }

    #[test]
    fn each_step_says_what_it_holds() {
        let says = |step, rolls| summary(step, &recipe(), rolls, Units::default());
        assert_eq!(says(Step::Coat(3), None), "even, 0.26 mm");
        assert_eq!(says(Step::Sponge, None), "damp, twice over");
        assert_eq!(says(Step::Sponge, Some(40)), "damp, 40 rolls, twice over");
        assert_eq!(says(Step::Ticket, Some(40)), "");
        assert_eq!(says(Step::Coat(4), None), "", "not in the recipe any more");
    }
}
