//! What the parts of the area share: the jars, what came, and which way is tried.

use crate::services::render::desk::Desk;
use crate::state::announcer::Announcer;
use crate::state::finding::Finding;
use crate::state::glasses::OwnGlasses;
use crate::state::nav::Nav;
use crate::state::workpiece::{Trial, Workpiece};
use crate::words;
use dappledome::base::notice::Step;
use dappledome::color::difference::Lab;
use dappledome::glass::catalogue;
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::Glass;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::MOST_COATS;
use dappledome::tiles::find::{Found, Way};
use dappledome::worker::asked::{DeskJob, FindJob, Finds, Said};
use leptos::prelude::*;
use std::sync::Arc;

/// So many ways are shown.
const SHOWN: usize = 5;

/// A way as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What was found.
    pub found: Found,
    /// What to sift, in words.
    pub what: String,
    /// Grams of each jar for one disc.
    pub grams: Vec<f64>,
}

/// What came of looking.
#[derive(Clone, Debug, PartialEq)]
pub enum Came {
    /// Ways, nearest first, and the jars that they take.
    Rows(Vec<Row>, Arc<Vec<Glass>>),
    /// The recipe cannot be made or has no such coat.
    NoCoat,
}

/// The parts.
#[derive(Clone, Copy)]
pub struct FindState {
    /// What is looked for.
    pub finding: Finding,
    /// The piece.
    pub piece: Workpiece,
    /// Where the maker is.
    pub nav: Nav,
    /// The jars that are looked among.
    pub jars: Memo<Vec<Glass>>,
    /// What came last; none while nothing has.
    pub came: RwSignal<Option<Came>>,
    /// Which row is tried.
    pub chosen: RwSignal<usize>,
    announcer: Announcer,
}

impl FindState {
    /// Keeps looking as long as the present owner lives. Takes the contexts of the page.
    pub fn start() -> Self {
        let (finding, own) = (expect_context::<Finding>(), expect_context::<OwnGlasses>());
        let piece = expect_context::<Workpiece>();
        let brought = Memo::new(move |_| piece.kept.read().glasses.clone());
        let jars = move |_: Option<&Vec<Glass>>| -> Vec<Glass> {
            let all = own.offered_with(&brought.read());
            let own_only = finding.own_only.get();
            let taken = |glass: &&Glass| glass.powder && !(own_only && catalogue::find(&glass.id).is_some());
            all.all().filter(taken).cloned().collect()
        };
        let state = Self {
            finding,
            piece,
            nav: expect_context(),
            jars: Memo::new(jars),
            came: RwSignal::new(None),
            chosen: RwSignal::new(0),
            announcer: expect_context(),
        };
        expect_context::<Desk>().keep_asking("find", move || state.job(), move |said| state.bring(said));
        state
    }

    /// The name of the coat that it is looked for.
    pub fn coat_name(&self) -> String {
        words::powder_of(&self.piece.kept.read(), self.finding.coat.get())
    }

    /// Whether one jar can lie over another: the recipe has room for one more coat.
    pub fn has_room(&self) -> bool {
        self.piece.kept.read().coats.len() < MOST_COATS
    }

    fn job(&self) -> Option<DeskJob> {
        let Finding { coat, wanted, seen, two, .. } = self.finding;
        let wanted = wanted.get()?;
        let jars = self.jars.get();
        let job = FindJob {
            recipe: self.piece.kept.get(),
            seed: self.piece.seed.get(),
            coat: coat.get(),
            jars: Glasses(jars),
            wanted,
            seen: seen.get(),
            two: two.get(),
        };
        (!job.jars.is_empty()).then(|| DeskJob::Find(Box::new(job)))
    }

    /// Shows what came and tries the nearest; the one that is tried stays if the same ways came again.
    fn bring(&self, said: Said) {
        let Said::Found(finds) = said else { return };
        let ways = |came: &Option<Came>| -> Vec<Found> {
            let Some(Came::Rows(rows, _)) = came else { return Vec::new() };
            rows.iter().map(|row| row.found.clone()).collect()
        };
        let before = self.came.with_untracked(ways);
        self.came.set(Some(untrack(|| finds.map_or(Came::NoCoat, |finds| self.rows(finds)))));
        let same = self.came.with_untracked(ways) == before;
        self.choose(if same { self.chosen.get_untracked() } else { 0 });
    }

    fn rows(&self, Finds { ways, area }: Finds) -> Came {
        let (jars, has_room) = (self.jars.get(), self.has_room());
        let packing = self.piece.kept.read().packing;
        let fits = |found: &Found| {
            (has_room || !matches!(found.way, Way::Over { .. }))
                // The jars may be others by now; then another answer is on its way.
                && found.way.jars().iter().all(|jar| *jar < jars.len())
        };
        let row = |found: Found| {
            let grams = |(jar, depth): (usize, f64)| {
                let glass: &Glass = &jars[jar];
                1e-3 * area * depth * glass.packing.unwrap_or(packing) * glass.density
            };
            Row {
                what: words::way(&found.way, |jar| jars[jar].name.clone()),
                grams: found.way.each().into_iter().map(grams).collect(),
                found,
            }
        };
        let rows = ways.into_iter().filter(fits).take(SHOWN).map(row).collect();
        Came::Rows(rows, Arc::new(jars))
    }

    /// A row, if there is one.
    pub fn row(&self, at: usize) -> Option<Row> {
        self.came.with(|came| if let Some(Came::Rows(rows, _)) = came { rows.get(at).cloned() } else { None })
    }

    /// How many rows there are.
    pub fn count(&self) -> usize {
        self.came.with(|came| if let Some(Came::Rows(rows, _)) = came { rows.len() } else { 0 })
    }

    /// Tries a row in the piece; nothing if there is no such row.
    pub fn choose(&self, at: usize) {
        self.chosen.set(at);
        let row = untrack(|| self.row(at));
        if let Some(row) = &row {
            self.announcer.say(words::trying(&row.what));
        }
        self.piece
            .trial
            .set(row.map(|row| Trial { name: row.what, change: Arc::new(self.change(row.found.way)) }));
    }

    /// Lays a way of those that came: its jars are the ones it was found among.
    fn change(&self, way: Way) -> impl Fn(&mut Recipe) + Send + Sync + 'static {
        let coat = self.finding.coat.get_untracked();
        let jars = self.came.with_untracked(|came| match came {
            Some(Came::Rows(_, jars)) => Arc::clone(jars),
            _ => Arc::default(),
        });
        move |recipe| way.lay(&jars, recipe, coat)
    }

    /// Tries the row that lies so many further.
    pub fn choose_next(&self, by: isize) {
        let last = untrack(|| self.count()).saturating_sub(1);
        self.choose(self.chosen.get_untracked().saturating_add_signed(by).min(last));
    }

    /// Looks for another color, or for none.
    pub fn want(&self, wanted: Option<Lab>) {
        self.finding.wanted.set(wanted);
        if wanted.is_none() {
            self.forget();
        }
    }

    /// Looks among the maker's own jars alone, or among all.
    pub fn look_among(&self, own_only: bool) {
        self.finding.own_only.set(own_only);
        if self.jars.with_untracked(Vec::is_empty) {
            self.forget();
        }
    }

    /// Nothing is looked for: nothing is shown or tried.
    fn forget(&self) {
        self.came.set(None);
        self.piece.trial.set(None);
    }

    /// Puts what is tried into the piece, and lays the area aside.
    pub fn put_in(&self) {
        let Some(row) = untrack(|| self.row(self.chosen.get())) else { return };
        let (coat, name) = (self.finding.coat.get_untracked(), untrack(|| self.coat_name()));
        self.piece.edit(words::did::FOUND, self.change(row.found.way));
        self.announcer.say(words::is_put_in(&row.what, &name));
        self.nav.close_area();
        self.nav.step.set(Some(Step::Coat(coat)));
    }
}
