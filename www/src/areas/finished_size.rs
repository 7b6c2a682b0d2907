//! The size of the finished piece, as the customer reads it.

use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::kiln::sinking::dome_of;
use dappledome::recipe::Recipe;
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;
use std::sync::Arc;

/// The size of a finished piece in the units shown; nothing of a recipe that cannot be made.
pub fn finished_size(recipe: &Recipe, preferences: Preferences) -> String {
    let Ok(planned) = Plan::new(recipe) else { return String::new() };
    let dome = dome_of(&planned.plan);
    words::dome_size(dome.across(), dome.high(), preferences.units.get())
}

/// The finished sizes of options, each by the recipe it was kept with: one for all where they are the same, and one for each
/// where they are not.
#[derive(Clone, Debug, PartialEq)]
pub enum Sizes {
    /// All have this one.
    Same(String),
    /// Each has its own, in the options' order.
    Own(Vec<String>),
}

impl Sizes {
    /// The sizes of these options, followed.
    pub fn of(options: &[Seed], piece: Workpiece, preferences: Preferences) -> Self {
        // A disc takes milliseconds to sink, and most options share their recipe.
        let mut last: Option<(Arc<Recipe>, String)> = None;
        let size = |seed: &Seed| {
            let recipe = piece.offered(*seed);
            match &last {
                Some((same, size)) if *same == recipe => size.clone(),
                _ => {
                    let size = finished_size(&recipe, preferences);
                    last = Some((recipe, size.clone()));
                    size
                }
            }
        };
        Self::told(options.iter().map(size).collect())
    }

    fn told(all: Vec<String>) -> Self {
        match &all[..] {
            [first, rest @ ..] if rest.iter().all(|size| size == first) => Self::Same(first.clone()),
            _ => Self::Own(all),
        }
    }

    /// What stands in the head of a sheet.
    pub fn head(&self) -> String {
        if let Self::Same(size) = self { size.clone() } else { String::new() }
    }

    /// What stands beside the `at`th option.
    pub fn beside(&self, at: usize) -> String {
        if let Self::Own(sizes) = self { sizes.get(at).cloned().unwrap_or_default() } else { String::new() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_said_once_where_all_have_it() {
        let told = |sizes: [&str; 2]| Sizes::told(sizes.map(String::from).to_vec());
        let same = told(["148 x 42", "148 x 42"]);
        assert_eq!((same.head(), same.beside(1)), ("148 x 42".into(), String::new()));
        let own = told(["148 x 42", "140 x 40"]);
        assert_eq!(
            (own.head(), own.beside(1), own.beside(2)),
            (String::new(), "140 x 40".into(), String::new())
        );
    }
}
