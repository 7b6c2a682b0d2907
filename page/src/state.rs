//! What the page knows: the recipe under the maker's hands, how it is looked at, and what was computed from it.

use super::history::History;
use dappledome::base::notice::{Notice, Step};
use dappledome::base::seed::Seed;
use dappledome::optics::forewarn;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::plan::{Plan, Planned};
use dappledome::recipe::{Recipe, demo};
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;
use std::sync::Arc;

/// The seed of a piece that nobody has rolled yet.
pub const FIRST_SEED: Seed = Seed(41);

/// Where the eye is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// Turn of the piece, degrees.
    pub turn: f32,
    /// Height of the eye, degrees.
    pub tilt: f32,
    /// How near.
    pub zoom: f32,
}

/// The piece as it stands when nobody has turned it.
pub const STRAIGHT: Eye = Eye { turn: 0.0, tilt: View::USUAL_TILT, zoom: 1.0 };

impl Eye {
    /// The eye after a turn and a tilt by so many degrees.
    pub fn turned(self, turn: f32, tilt: f32) -> Self {
        let tilt = (self.tilt + tilt).clamp(View::LEAST_TILT, View::MOST_TILT);
        Self { turn: (self.turn + turn).rem_euclid(360.0), tilt, ..self }
    }

    /// The eye after coming nearer by a factor.
    pub fn nearer(self, factor: f32) -> Self {
        Self { zoom: (self.zoom * factor).clamp(0.5, 6.0), ..self }
    }
}

/// What lies under the piece, if anything does.
#[derive(Clone, Debug, PartialEq)]
pub enum Slip {
    /// Nothing.
    None,
    /// The welcome, until the first change.
    Welcome,
    /// A file that could not be opened: what it is, and why.
    Refused {
        /// First words, in weight.
        what: String,
        /// The rest.
        why: String,
    },
    /// The worker broke twice.
    Stopped,
    /// A newer version of the page can be used.
    NewVersion,
}

/// The recipe as planned.
#[derive(Clone, Debug)]
pub struct Board {
    /// The last recipe that could be made, and its plan.
    pub made: Arc<(Recipe, Plan)>,
    /// What there is to say about the recipe as it stands.
    pub notices: Vec<Notice>,
    /// Whether the recipe as it stands can be made.
    pub works: bool,
}

/// All of it; copied freely, since it holds only handles.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The recipe.
    pub recipe: RwSignal<Recipe>,
    /// The recipe as it was last opened from a file or saved to one.
    pub filed: RwSignal<Option<Recipe>>,
    /// The seed.
    pub seed: RwSignal<Seed>,
    /// The stage looked at.
    pub stage: RwSignal<Stage>,
    /// The light.
    pub light: RwSignal<Light>,
    /// The eye.
    pub eye: RwSignal<Eye>,
    /// Side of the large picture, device pixels; none before it is laid out.
    pub pixels: RwSignal<Option<u32>>,
    /// Whether a picture has come. What takes long the first time waits for it, so that the page stands at once.
    pub drawn: RwSignal<bool>,
    /// The open step.
    pub open: RwSignal<Option<Step>>,
    /// Whether the open step shows its finer rules.
    pub finer: RwSignal<bool>,
    /// The numbers, once computed.
    pub ticket: RwSignal<Option<Ticket>>,
    /// What lies under the piece.
    pub slip: RwSignal<Slip>,
    /// Whether a newer version of the page is ready and the maker has not answered yet.
    pub newer: RwSignal<bool>,
    /// Notices that the maker has read and folded, by their first words and step.
    pub folded: RwSignal<Vec<(Step, String)>>,
    /// What is said to those who do not see the page.
    pub said: RwSignal<String>,
    /// The demo recipes, the first of them on the table.
    pub demos: StoredValue<Vec<Recipe>>,
    /// The recipe, planned.
    pub board: Memo<Board>,
    /// What can be taken back.
    pub history: History,
}

impl Bench {
    /// The page as a newcomer finds it.
    pub fn new() -> Self {
        let demos = demo::all();
        let recipe = RwSignal::new(demos[0].clone());
        Self {
            recipe,
            filed: RwSignal::new(None),
            seed: RwSignal::new(FIRST_SEED),
            stage: RwSignal::new(Stage::Domed),
            light: RwSignal::new(Light::Day),
            eye: RwSignal::new(STRAIGHT),
            pixels: RwSignal::new(None),
            drawn: RwSignal::new(false),
            open: RwSignal::new(None),
            finer: RwSignal::new(false),
            ticket: RwSignal::new(None),
            slip: RwSignal::new(Slip::Welcome),
            newer: RwSignal::new(false),
            folded: RwSignal::new(Vec::new()),
            said: RwSignal::new(String::new()),
            demos: StoredValue::new(demos),
            board: Memo::new_with_compare(move |last| recipe.with(|recipe| plan(recipe, last)), |_, _| true),
            history: History::new(),
        }
    }

    /// Changes the recipe, remembering how it was. Changes of one name in a quick run are one step back.
    pub fn edit(&self, name: &str, change: &dyn Fn(&mut Recipe)) {
        self.history.note(name, &self.recipe.read_untracked(), self.seed.get_untracked());
        self.recipe.update(change);
        self.leave_welcome();
    }

    /// Takes another seed, remembering the last one.
    pub fn sow(&self, seed: Seed) {
        if seed != self.seed.get_untracked() {
            self.history.note("seed", &self.recipe.read_untracked(), self.seed.get_untracked());
            self.seed.set(seed);
            self.leave_welcome();
        }
    }

    /// Takes up another recipe in place of this one.
    pub fn take_up(&self, name: &str, recipe: &Recipe) {
        self.open.set(None);
        self.folded.set(Vec::new());
        self.edit(name, &|old| old.clone_from(recipe));
    }

    /// Goes one step back in what was done, or forward again.
    pub fn step_back(&self, forward: bool) {
        let now = (self.recipe.get_untracked(), self.seed.get_untracked());
        if let Some((recipe, seed)) = self.history.step(now, forward) {
            self.recipe.set(recipe);
            self.seed.set(seed);
        }
    }

    /// Opens a step, or closes it if it is open.
    pub fn toggle(&self, step: Step) {
        let open = self.open.get_untracked();
        self.finer.set(false);
        self.open.set((open != Some(step)).then_some(step));
    }

    /// Lays aside the slip on the table or, if there is none, closes the open step. That the picture stopped stays said.
    pub fn close(&self) {
        match self.slip.get_untracked() {
            Slip::Welcome | Slip::Refused { .. } => self.slip.set(Slip::None),
            Slip::NewVersion => self.leave_newer(),
            Slip::None | Slip::Stopped => self.open.set(None),
        }
    }

    /// Leaves the newer version for the next time.
    pub fn leave_newer(&self) {
        self.newer.set(false);
        self.slip.set(Slip::None);
    }

    fn leave_welcome(&self) {
        if self.slip.with_untracked(|slip| *slip == Slip::Welcome) {
            self.slip.set(Slip::None);
        }
    }
}

fn plan(recipe: &Recipe, last: Option<&Board>) -> Board {
    match Plan::new(recipe) {
        Ok(Planned { plan, mut notices }) => {
            notices.extend(forewarn::notices(&plan));
            Board { made: Arc::new((recipe.clone(), plan)), notices, works: true }
        }
        Err(notices) => {
            let made = last.map_or_else(made_of_nothing, |last| last.made.clone());
            Board { made, notices, works: false }
        }
    }
}

fn made_of_nothing() -> Arc<(Recipe, Plan)> {
    let bare = Recipe::bare();
    let planned = Plan::new(&bare).expect("a bare blank can be made");
    Arc::new((bare, planned.plan))
}
