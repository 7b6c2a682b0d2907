//! The piece under the maker's hands: its recipe, its seed, what was decided about its sisters, and how to take it all back.

use super::history::{History, NextSteps};
use super::nav::Nav;
use crate::dom::clock;
use crate::model::demos::demos;
use crate::model::ids::{AreaId, FIRST_SEED, PieceId};
use crate::model::records::{Origin, Version};
use crate::words::did;
use dappledome::base::notice::Notice;
use dappledome::base::seed::Seed;
use dappledome::optics::forewarn;
use dappledome::recipe::Recipe;
use dappledome::recipe::hand_work::HandWorks;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::{Plan, Planned};
use dappledome::recipe::sisters::Sisters;
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

/// A change that is looked at and not made yet.
#[derive(Clone)]
pub struct Trial {
    /// What is tried.
    pub name: String,
    /// The change.
    pub change: Arc<dyn Fn(&mut Recipe) + Send + Sync>,
}

/// The piece under the maker's hands.
#[derive(Clone, Copy, Debug)]
pub struct Workpiece {
    /// The recipe as it is kept.
    pub kept: RwSignal<Recipe>,
    /// What is tried on it while a color is looked for. Nothing of it is kept, and with its area it goes.
    pub trial: RwSignal<Option<Trial>>,
    /// The recipe as it is shown: with what is tried.
    pub recipe: Memo<Recipe>,
    /// The seed.
    pub seed: RwSignal<Seed>,
    /// What was laid by hand on other seeds.
    pub by_hand: RwSignal<HandWorks>,
    /// What was decided among its sisters.
    pub sisters: RwSignal<Sisters>,
    /// Which of the maker's pieces it is; none before the first change of a newcomer.
    pub id: RwSignal<Option<PieceId>>,
    /// Where it came from, until its next change.
    pub origin: RwSignal<Option<Origin>>,
    /// The recipe, planned.
    pub plan: Memo<WorkPlan>,
    /// The last recipe that could be made, as it is for every seed: with nothing laid by hand.
    common: Memo<Arc<Recipe>>,
    /// What was done.
    pub history: RwSignal<History<Version>>,
    /// What can be taken back and brought again.
    pub next_steps: Memo<NextSteps>,
    nav: Nav,
}

impl Workpiece {
    /// As a newcomer finds it: the first recipe that comes with the program.
    pub fn new(nav: Nav) -> Self {
        let kept = RwSignal::new(demos()[0].clone());
        let trial = RwSignal::new(None);
        let recipe = Memo::new(move |_| shown(&kept.read(), tried(nav, trial)));
        let history = RwSignal::new(History::default());
        let plan = Memo::new_with_compare(move |last| plan(&recipe.read(), last), |_, _| true);
        Self {
            kept,
            trial,
            recipe,
            seed: RwSignal::new(FIRST_SEED),
            by_hand: RwSignal::new(HandWorks::default()),
            sisters: RwSignal::new(Sisters::default()),
            id: RwSignal::new(None),
            origin: RwSignal::new(None),
            plan,
            common: Memo::new(move |_| Arc::new(plan.read().made.0.without_hand_work())),
            history,
            next_steps: Memo::new(move |_| history.read().next_steps()),
            nav,
        }
    }

    /// The name of what is tried, followed.
    pub fn trying(&self) -> Option<String> {
        tried(self.nav, self.trial).map(|trial| trial.name)
    }

    /// The piece as it stands, followed.
    pub fn followed(&self) -> Version {
        let piece = Piece {
            recipe: self.kept.get(),
            seed: self.seed.get(),
            by_hand: self.by_hand.get(),
            sisters: self.sisters.get(),
        };
        Version { id: self.id.get(), piece }
    }

    /// The piece as it stands.
    pub fn version(&self) -> Version {
        untrack(|| self.followed())
    }

    /// The last recipe that could be made, as it shows a seed: with what was laid by hand on it, and on no other.
    pub fn sister(&self, seed: Seed) -> Arc<Recipe> {
        if self.seed.get() == seed {
            return Arc::new(self.made().0.clone());
        }
        let common = self.common.get();
        self.by_hand.read().laid_on(&common, seed).map_or(common, Arc::new)
    }

    /// An option of the shortlist as it was kept.
    pub fn option(&self, seed: Seed) -> Option<Arc<Recipe>> {
        self.sisters.read().option(seed).map(|kept| kept.recipe.clone())
    }

    /// A sister as the customer sees her: as she was kept, or else as the recipe shows her.
    pub fn offered(&self, seed: Seed) -> Arc<Recipe> {
        self.option(seed).unwrap_or_else(|| self.sister(seed))
    }

    /// Whether the recipe shows an option otherwise than it was kept.
    pub fn has_moved_on(&self, seed: Seed) -> bool {
        self.option(seed).is_some_and(|kept| !kept.makes_the_same(&self.sister(seed)))
    }

    /// The last recipe that could be made, and its plan.
    pub fn made(&self) -> Arc<(Recipe, Plan)> {
        self.plan.read().made.clone()
    }

    /// Changes the recipe, remembering how it was. Changes of one name in a quick run are one step back.
    pub fn edit(&self, name: &str, change: impl FnOnce(&mut Recipe)) {
        self.note(name);
        let before = self.kept.get_untracked();
        self.kept.update(|recipe| {
            change(recipe);
            recipe.keep_together(&before);
            recipe.drop_unused_glasses();
        });
        if !self.by_hand.with_untracked(HandWorks::is_empty) {
            self.kept.with_untracked(|recipe| self.by_hand.write().forget_what_is_gone(recipe));
        }
    }

    /// Takes another seed, remembering the last one. What was laid by hand stays with its seed.
    pub fn sow(&self, seed: Seed) {
        if seed != self.seed.get_untracked() {
            self.note(did::SEED);
            self.lay(self.turned_to(seed));
        }
    }

    fn turned_to(&self, seed: Seed) -> Version {
        let mut version = self.version();
        version.piece.turn_to(seed);
        version
    }

    /// Takes an option of the shortlist as it was kept: its recipe, its seed and what was laid on it by hand.
    pub fn go_back_to(&self, name: &str, seed: Seed) {
        if let Some(version) = self.as_kept(seed) {
            self.note(name);
            self.lay(version);
        }
    }

    fn as_kept(&self, seed: Seed) -> Option<Version> {
        let kept = untrack(|| self.option(seed))?;
        let mut version = self.turned_to(seed);
        let Recipe { title, batch, .. } = version.piece.recipe;
        version.piece.recipe = Recipe { title, batch, ..Recipe::clone(&kept) };
        version.piece.by_hand.forget_what_is_gone(&version.piece.recipe);
        Some(version)
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
        if self.kept.with_untracked(|recipe| *recipe != piece.recipe) {
            self.kept.set(piece.recipe);
        }
        if self.seed.get_untracked() != piece.seed {
            self.seed.set(piece.seed);
        }
        if self.by_hand.with_untracked(|by_hand| *by_hand != piece.by_hand) {
            self.by_hand.set(piece.by_hand);
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

/// What is tried, as long as its area lies on the table; followed.
fn tried(nav: Nav, trial: RwSignal<Option<Trial>>) -> Option<Trial> {
    if nav.is_on(AreaId::FIND) { trial.get() } else { None }
}

fn shown(kept: &Recipe, trial: Option<Trial>) -> Recipe {
    let mut recipe = kept.clone();
    if let Some(trial) = trial {
        (trial.change)(&mut recipe);
    }
    recipe
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

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Mm;

    const OTHER: Seed = Seed(47);

    /// A piece that was kept as an option and then rubbed on its seed.
    fn rubbed() -> Workpiece {
        let piece = Workpiece::new(Nav::new());
        piece.sisters.update(|sisters| sisters.keep(FIRST_SEED, untrack(|| piece.sister(FIRST_SEED))));
        piece.kept.update(|recipe| assert!(recipe.rub_off(Mm(8.0), &[[1.0, 2.0]])));
        piece
    }

    fn rubs(recipe: &Recipe) -> usize {
        recipe.sponged_off.len()
    }

    #[test]
    fn what_is_laid_by_hand_is_seen_on_its_seed_alone() {
        Owner::new().with(|| {
            let piece = rubbed();
            let seen = |seed| untrack(|| rubs(&piece.sister(seed)));
            assert_eq!((seen(FIRST_SEED), seen(OTHER)), (1, 0));
            piece.lay(piece.turned_to(OTHER));
            assert_eq!((seen(FIRST_SEED), seen(OTHER), rubs(&piece.recipe.get_untracked())), (1, 0, 0));
            piece.lay(piece.turned_to(FIRST_SEED));
            assert_eq!(rubs(&piece.recipe.get_untracked()), 1);
        });
    }

    #[test]
    fn an_option_stays_as_it_was_kept_and_can_be_gone_back_to() {
        Owner::new().with(|| {
            let piece = rubbed();
            assert!(untrack(|| piece.has_moved_on(FIRST_SEED)));
            piece.lay(piece.turned_to(OTHER));
            piece.kept.update(|recipe| {
                recipe.title = "Late".into();
                recipe.blank.diameter = Mm(150.0);
            });
            piece.lay(piece.as_kept(FIRST_SEED).unwrap());
            let recipe = piece.recipe.get_untracked();
            assert_eq!((recipe.blank.diameter, rubs(&recipe)), (Mm(160.0), 0));
            assert_eq!((piece.seed.get_untracked(), recipe.title.as_str()), (FIRST_SEED, "Late"));
            assert!(!untrack(|| piece.has_moved_on(FIRST_SEED)));
            assert!(piece.as_kept(OTHER).is_none());
        });
    }

    #[test]
    fn what_is_tried_is_seen_and_neither_kept_nor_left_behind() {
        Owner::new().with(|| {
            let nav = Nav::new();
            let piece = Workpiece::new(nav);
            nav.open_area(AreaId::FIND);
            let change = Arc::new(|recipe: &mut Recipe| recipe.blank.diameter = Mm(150.0));
            piece.trial.set(Some(Trial { name: "150".into(), change }));
            let across = |recipe: &Recipe| recipe.blank.diameter.0;
            assert_eq!(untrack(|| across(&piece.made().0)), 150.0);
            assert_eq!(across(&piece.version().piece.recipe), 160.0);
            assert_eq!(untrack(|| piece.trying()), Some("150".into()));
            nav.close_area();
            assert_eq!(untrack(|| (across(&piece.made().0), piece.trying())), (160.0, None));
        });
    }

    #[test]
    fn another_name_or_number_of_pieces_is_not_another_piece() {
        Owner::new().with(|| {
            let piece = rubbed();
            piece.lay(piece.as_kept(FIRST_SEED).unwrap());
            piece.kept.update(|recipe| recipe.title = "Other".into());
            assert!(!untrack(|| piece.has_moved_on(FIRST_SEED)));
        });
    }
}
