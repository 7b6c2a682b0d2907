//! The piece under the maker's hands: its recipe, its seed, what was decided about its sisters, and how to take it all back.

use super::history::{History, NextSteps};
use super::nav::Nav;
use crate::dom::clock;
use crate::model::demos::demos;
use crate::model::ids::{FIRST_SEED, PieceId};
use crate::model::records::{Origin, Version};
use crate::words::did;
use dappledome::base::notice::Notice;
use dappledome::base::seed::Seed;
use dappledome::optics::forewarn;
use dappledome::recipe::Recipe;
use dappledome::recipe::piece::{Piece, Sisters};
use dappledome::recipe::plan::{Plan, Planned};
use leptos::prelude::*;
use std::sync::Arc;

/// The recipe as planned.
#[derive(Clone, Debug)]
pub struct WorkPlan {
    /// The last recipe that could be made, and its plan.
    pub made: Arc<(Recipe, Plan)>,
    /// What there is to say about the recipe as it stands.
    pub notices: Vec<Notice>,
    /// Whether the recipe as it stands can be made.
    pub works: bool,
}

/// The piece under the maker's hands.
#[derive(Clone, Copy, Debug)]
pub struct Workpiece {
    /// The recipe.
    pub recipe: RwSignal<Recipe>,
    /// The seed.
    pub seed: RwSignal<Seed>,
    /// What was decided among its sisters.
    pub sisters: RwSignal<Sisters>,
    /// Which of the maker's pieces it is; none before the first change of a newcomer.
    pub id: RwSignal<Option<PieceId>>,
    /// Where it came from, until its next change.
    pub origin: RwSignal<Option<Origin>>,
    /// The recipe, planned.
    pub plan: Memo<WorkPlan>,
    /// What was done.
    pub history: RwSignal<History>,
    /// What can be taken back and brought again.
    pub next_steps: Memo<NextSteps>,
    nav: Nav,
}

impl Workpiece {
    /// As a newcomer finds it: the first recipe that comes with the program.
    pub fn new(nav: Nav) -> Self {
        let recipe = RwSignal::new(demos()[0].clone());
        let history = RwSignal::new(History::default());
        Self {
            recipe,
            seed: RwSignal::new(FIRST_SEED),
            sisters: RwSignal::new(Sisters::default()),
            id: RwSignal::new(None),
            origin: RwSignal::new(None),
            plan: Memo::new_with_compare(move |last| plan(&recipe.read(), last), |_, _| true),
            history,
            next_steps: Memo::new(move |_| history.read().next_steps()),
            nav,
        }
    }

    /// The piece as it stands.
    pub fn version(&self) -> Version {
        let piece = Piece {
            recipe: self.recipe.get_untracked(),
            seed: self.seed.get_untracked(),
            sisters: self.sisters.get_untracked(),
        };
        Version { id: self.id.get_untracked(), piece }
    }

    /// The last recipe that could be made, and its plan.
    pub fn made(&self) -> Arc<(Recipe, Plan)> {
        self.plan.read().made.clone()
    }

    /// Changes the recipe, remembering how it was. Changes of one name in a quick run are one step back.
    pub fn edit(&self, name: &str, change: impl FnOnce(&mut Recipe)) {
        self.note(name);
        change(&mut self.recipe.write());
    }

    /// Takes another seed, remembering the last one.
    pub fn sow(&self, seed: Seed) {
        if seed != self.seed.get_untracked() {
            self.note(did::SEED);
            self.seed.set(seed);
        }
    }

    /// Takes the seed that lies so many after this one, or before it.
    pub fn sow_next(&self, by: i32) {
        self.sow(Seed(self.seed.get_untracked().0.wrapping_add_signed(by)));
    }

    /// Decides something about the sisters, remembering how it was.
    pub fn decide(&self, name: &str, change: impl FnOnce(&mut Sisters)) {
        self.note(name);
        change(&mut self.sisters.write());
    }

    /// Takes up another piece in place of this one: one of the maker's, or a new one. It is a step like any other.
    pub fn take_up(&self, name: &str, id: Option<PieceId>, piece: &Piece) {
        self.note(name);
        self.nav.start_over();
        let id = Some(id.unwrap_or_else(PieceId::fresh));
        self.lay(Version { id, piece: piece.clone() });
    }

    /// Takes up one of the recipes that come with the program.
    pub fn take_up_demo(&self, name: &str, recipe: &Recipe) {
        self.take_up(name, None, &Piece::new(recipe.clone(), FIRST_SEED));
    }

    /// Goes so many steps back in what was done (negative), or forward again.
    pub fn step_by(&self, by: isize) {
        let now = self.version();
        let then = self.history.try_update(|history| history.step(now, by)).flatten();
        if let Some(version) = then {
            self.lay(version);
        }
    }

    /// Begins or ends a drag: its changes are one step.
    pub fn drag(&self, begins: bool) {
        self.history.update(|history| history.drag(begins));
    }

    /// Takes over what another tab made of this piece; it can be taken back.
    pub fn adopt(&self, name: &str, version: Version) {
        self.note(name);
        self.lay(version);
    }

    /// Lays a piece on the table without a step to go back.
    pub fn lay(&self, version: Version) {
        let Version { id, piece } = version;
        // A piece that was once kept stays that one, even as it stood before its first change.
        if id.is_some() && id != self.id.get_untracked() {
            self.id.set(id);
        }
        if self.recipe.with_untracked(|recipe| *recipe != piece.recipe) {
            self.recipe.set(piece.recipe);
        }
        if self.seed.get_untracked() != piece.seed {
            self.seed.set(piece.seed);
        }
        if self.sisters.with_untracked(|sisters| *sisters != piece.sisters) {
            self.sisters.set(piece.sisters);
        }
    }

    /// Remembers how the piece stands; from now on it is one of the maker's.
    fn note(&self, name: &str) {
        self.history.update(|history| history.note(name, clock::now(), || self.version()));
        if self.id.get_untracked().is_none() {
            self.id.set(Some(PieceId::fresh()));
        }
        self.nav.begin();
        if self.origin.with_untracked(Option::is_some) {
            self.origin.set(None);
        }
    }
}

fn plan(recipe: &Recipe, last: Option<&WorkPlan>) -> WorkPlan {
    match Plan::new(recipe) {
        Ok(Planned { plan, mut notices }) => {
            notices.extend(forewarn::notices(&plan));
            WorkPlan { made: Arc::new((recipe.clone(), plan)), notices, works: true }
        }
        Err(notices) => {
            let made = last.map_or_else(made_of_nothing, |last| last.made.clone());
            WorkPlan { made, notices, works: false }
        }
    }
}

fn made_of_nothing() -> Arc<(Recipe, Plan)> {
    let bare = Recipe::bare();
    let planned = Plan::new(&bare).expect("a bare blank can be made");
    Arc::new((bare, planned.plan))
}
