//! What the firings of the piece come to in the maker's kiln: programs, hours, energy, and what the glass does.

use super::kilns::Kilns;
use super::workpiece::Workpiece;
use dappledome::base::firing::Firing;
use dappledome::base::notice::Notice;
use dappledome::kiln::firings::Firings;
use dappledome::kiln::program::Program;
use dappledome::recipe::{Batch, Layout, Recipe};
use leptos::prelude::*;
use std::sync::Arc;

/// What they come to, or what is wrong with the kiln.
pub type Outcome = Result<Arc<Firings>, Arc<Vec<Notice>>>;

/// The firings of the last recipe that could be made.
#[derive(Clone, Copy, Debug)]
pub struct Fired(Memo<Outcome>);

impl Fired {
    /// Reckons them whenever the kiln changes, or something in the recipe that heat sees.
    pub fn new(piece: Workpiece, kilns: Kilns) -> Self {
        let seen = Memo::new(move |_| seen_by_heat(&piece.made().0));
        Self(Memo::new(move |_| {
            // Only a memo that was read is followed.
            seen.with(|_| ());
            let made = piece.plan.with_untracked(|plan| plan.made.clone());
            Firings::new(&made.1, &kilns.kiln.read()).map(Arc::new).map_err(Arc::new)
        }))
    }

    /// All of it, followed; none where the kiln is at fault.
    pub fn firings(&self) -> Option<Arc<Firings>> {
        self.0.get().ok()
    }

    /// The program of one firing, followed.
    pub fn program(&self, firing: Firing) -> Option<Program> {
        self.0.with(|outcome| {
            let programs = outcome.as_ref().ok().map(|firings| &firings.programs);
            programs?.iter().find(|program| program.firing == firing).cloned()
        })
    }

    /// What there is to know of them, followed.
    pub fn notices(&self) -> Vec<Notice> {
        self.0.with(|outcome| match outcome {
            Ok(firings) => firings.all_notices().cloned().collect(),
            Err(faults) => faults.to_vec(),
        })
    }
}

/// A recipe without what no heat sees: its name, the sponge, where things lie, and how many pieces there are.
fn seen_by_heat(recipe: &Recipe) -> Recipe {
    let mut seen = recipe.clone();
    seen.title.clear();
    seen.sponge = None;
    seen.sponged_off.clear();
    seen.batch = Batch::default();
    for coat in &mut seen.coats {
        coat.layout = Layout::default();
    }
    seen
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Mm;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::recipe::demo;
    use dappledome::recipe::plan::Plan;

    #[test]
    fn what_heat_does_not_see_changes_no_firing() {
        let recipe = demo::ember_walk();
        let firings = |recipe: &Recipe| {
            let plan = Plan::new(recipe).unwrap().plan;
            Firings::new(&plan, &Kiln::guess(Guess::SmallBrick)).unwrap()
        };
        assert_eq!(firings(&seen_by_heat(&recipe)), firings(&recipe));
        let mut other = recipe.clone();
        other.title = "Other".into();
        other.batch.pieces = 9;
        other.coats[0].layout.mirrored = true;
        assert_eq!(seen_by_heat(&other), seen_by_heat(&recipe));
        other.blank.sheets[0].thickness = Mm(4.0);
        assert_ne!(seen_by_heat(&other), seen_by_heat(&recipe));
    }
}
