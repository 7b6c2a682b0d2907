//! What the page knows: the recipe under the maker's hands, how it is looked at, and what was computed from it.

use super::history::{History, Standing};
use super::keeping::Keeping;
use super::{set_up, words};
use dappledome::base::notice::{Notice, Step};
use dappledome::base::scalar::Bounds;
use dappledome::base::seed::Seed;
use dappledome::base::shown::Units;
use dappledome::optics::forewarn;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::preview::{Point, Sampled};
use dappledome::recipe::piece::{Piece, Sisters};
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
        let tilt = (self.tilt + tilt).between(View::LEAST_TILT, View::MOST_TILT);
        Self { turn: (self.turn + turn).rem_euclid(360.0), tilt, ..self }
    }

    /// The eye after coming nearer by a factor.
    pub fn nearer(self, factor: f32) -> Self {
        Self { zoom: (self.zoom * factor).between(0.5, 6.0), ..self }
    }
}

/// Which of the maker's pieces one is, for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PieceId(pub u64);

impl PieceId {
    /// A number that no other piece has: of 2^52 ones, by chance.
    pub fn fresh() -> Self {
        Self((js_sys::Math::random() * (1u64 << 52) as f64) as u64)
    }
}

/// What lies on the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Area {
    /// The piece, large.
    Piece,
    /// Its sisters, side by side.
    Tray,
    /// The shortlist, turned to the customer.
    Customer,
    /// The option sheet.
    Paper,
    /// The maker's pieces.
    Shelf,
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
    /// Another tab changed the same piece at this time.
    Conflict(f64),
    /// Ways out and in: links, files, pictures, back-ups.
    Share,
    /// Units, frame, keys.
    SetUp,
    /// Everything that was done.
    Steps,
    /// The layers at one place.
    Sample,
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
    /// Which of the maker's pieces it is; none before the first change of a newcomer.
    pub id: RwSignal<Option<PieceId>>,
    /// Where a core sample is taken while its slip lies there.
    pub sampling: RwSignal<Point>,
    /// The core sample, once taken.
    pub sampled: RwSignal<Option<Sampled>>,
    /// What was decided among its sisters.
    pub sisters: RwSignal<Sisters>,
    /// What lies on the table.
    pub area: RwSignal<Area>,
    /// Where the piece came from, until its next change.
    pub origin: RwSignal<Option<&'static str>>,
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
    /// The units of what is shown.
    pub units: RwSignal<Units>,
    /// The frame around the table.
    pub frame: RwSignal<set_up::Frame>,
    /// The demo recipes, the first of them on the table.
    pub demos: StoredValue<Vec<Recipe>>,
    /// The recipe, planned.
    pub board: Memo<Board>,
    /// What can be taken back.
    pub history: History,
    /// What is kept of it.
    pub keep: Keeping,
}

impl Bench {
    /// The page as a newcomer finds it.
    pub fn new() -> Self {
        let demos = demo::all();
        let recipe = RwSignal::new(demos[0].clone());
        Self {
            recipe,
            id: RwSignal::new(None),
            sampling: RwSignal::new(Point::Place(0.0, 0.0)),
            sampled: RwSignal::new(None),
            sisters: RwSignal::new(Sisters::default()),
            area: RwSignal::new(Area::Piece),
            origin: RwSignal::new(None),
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
            units: RwSignal::new(set_up::kept_units()),
            frame: RwSignal::new(set_up::kept_frame()),
            demos: StoredValue::new(demos),
            board: Memo::new_with_compare(move |last| recipe.with(|recipe| plan(recipe, last)), |_, _| true),
            history: History::new(),
            keep: Keeping::new(),
        }
    }

    /// What the large picture shows, by this light and at this size.
    pub fn view(&self, light: Light, size: u32) -> View {
        let Eye { turn, tilt, zoom } = self.eye.get();
        View { stage: self.stage.get(), light, size, cells: View::FINE_CELLS, turn, tilt, zoom }
    }

    /// Words with their lengths and temperatures in the units that the maker wants to see.
    pub fn shown(&self, words: &str) -> String {
        self.units.get().text(words)
    }

    /// The piece as it stands.
    pub fn standing(&self) -> Standing {
        let piece = Piece {
            recipe: self.recipe.get_untracked(),
            seed: self.seed.get_untracked(),
            sisters: self.sisters.get_untracked(),
        };
        Standing { id: self.id.get_untracked(), piece }
    }

    /// Changes the recipe, remembering how it was. Changes of one name in a quick run are one step back.
    pub fn edit(&self, name: &str, change: &dyn Fn(&mut Recipe)) {
        self.note(name);
        self.recipe.update(change);
    }

    /// Takes another seed, remembering the last one.
    pub fn sow(&self, seed: Seed) {
        if seed != self.seed.get_untracked() {
            self.note(words::did::SEED);
            self.seed.set(seed);
        }
    }

    /// Decides something about the sisters, remembering how it was.
    pub fn decide(&self, name: &str, change: &dyn Fn(&mut Sisters)) {
        self.note(name);
        self.sisters.update(change);
    }

    /// Takes up another piece in place of this one: one of the maker's, or a new one. It is a step like any other.
    pub fn take_up(&self, name: &str, id: Option<PieceId>, piece: &Piece) {
        self.note(name);
        self.open.set(None);
        self.folded.set(Vec::new());
        self.area.set(Area::Piece);
        let id = Some(id.unwrap_or_else(PieceId::fresh));
        self.lay(Standing { id, piece: piece.clone() });
    }

    /// Takes up one of the recipes that come with the program.
    pub fn take_up_demo(&self, name: &str, recipe: &Recipe) {
        self.take_up(name, None, &Piece::new(recipe.clone(), FIRST_SEED));
    }

    /// Goes so many steps back in what was done (negative), or forward again.
    pub fn step_by(&self, by: isize) {
        if let Some(standing) = self.history.step(self.standing(), by) {
            self.lay(standing);
        }
    }

    /// Takes over what another tab made of this piece; it can be taken back.
    pub fn adopt(&self, name: &str, standing: Standing) {
        self.note(name);
        self.lay(standing);
    }

    /// Lays a piece on the table without a step to go back.
    pub fn lay(&self, standing: Standing) {
        let Standing { id, piece } = standing;
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
        self.history.note(name, || self.standing());
        if self.id.get_untracked().is_none() {
            self.id.set(Some(PieceId::fresh()));
        }
        if self.slip.with_untracked(|slip| *slip == Slip::Welcome) {
            self.lay_slip_aside();
        }
        if self.origin.with_untracked(Option::is_some) {
            self.origin.set(None);
        }
    }

    /// The size of the finished piece in the units shown; nothing before it is known.
    pub fn size(&self) -> String {
        let size = self.ticket.with(|ticket| ticket.as_ref().map(words::size));
        size.map_or_else(String::new, |size| self.shown(&size))
    }

    /// Opens a step, or closes it if it is open.
    pub fn toggle(&self, step: Step) {
        let open = self.open.get_untracked();
        self.finer.set(false);
        self.open.set((open != Some(step)).then_some(step));
    }

    /// Leaves the newer version for the next time.
    pub fn leave_newer(&self) {
        self.newer.set(false);
        self.lay_slip_aside();
    }

    /// Lays the slip on the table aside. A newer version waits for that to be offered.
    pub fn lay_slip_aside(&self) {
        let newer = self.newer.get_untracked();
        self.slip.set(if newer { Slip::NewVersion } else { Slip::None });
    }

    /// Offers a newer version as soon as no other slip lies there.
    pub fn offer_newer(&self) {
        self.newer.set(true);
        if self.slip.with_untracked(|slip| *slip == Slip::None) {
            self.lay_slip_aside();
        }
    }

    /// Lays a slip on the table, or aside if it is there.
    pub fn turn_slip(&self, slip: &Slip) {
        let there = self.slip.with_untracked(|now| now == slip);
        if there { self.lay_slip_aside() } else { self.slip.set(slip.clone()) }
    }

    /// Lays aside the slip on the table, or what lies there instead of the piece, or else closes the open step. That the
    /// picture stopped stays said.
    pub fn close(&self) {
        let slip = self.slip.get_untracked();
        if slip == Slip::NewVersion {
            self.leave_newer();
        } else if !matches!(slip, Slip::None | Slip::Stopped) {
            self.lay_slip_aside();
        } else if self.area.get_untracked() != Area::Piece {
            self.area.set(Area::Piece);
        } else {
            self.open.set(None);
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
