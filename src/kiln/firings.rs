//! All firings of a piece in a kiln: programs, hours, energy and cost, and what the glass becomes in them.

use super::bench::Bench;
use super::beyond::{note, risk};
use super::checks;
use super::cooling::{self, Fitted};
use super::data::Kiln;
use super::forewarn;
use super::fused;
use super::program::Program;
use super::sinking;
use crate::base::firing::Firing;
use crate::base::notice::{Mend, Notice};
use crate::base::units::{Mm, fixed};
use crate::fuse::edge_profile::{EdgeProfile, edge};
use crate::fuse::spread::{AtRest, Spread, at_rest};
use crate::fuse::tack::Tacked;
use crate::recipe::limits::DISC;
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// What the firings of a piece come to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Firings {
    /// Name of the kiln.
    pub kiln: String,
    /// Whether that kiln is a guess.
    pub guess: bool,
    /// What its cooling said, if it was read.
    pub fitted: Option<Fitted>,
    /// Whether energies are in proportion to what its owner's meter said.
    pub metered: bool,
    /// The programs, in the order of making; one that this kiln does not get through is left out.
    pub programs: Vec<Program>,
    /// Cost of each program, if a kWh has a price.
    pub costs: Option<Vec<f64>>,
    /// The disc behind its full fuse.
    pub spread: Option<Spread>,
    /// The same, however long it were held; none for less than a drop's width.
    pub at_rest: Option<AtRest>,
    /// Its edge.
    pub edge: Option<EdgeProfile>,
    /// The smallest and the largest accent behind the tack fuse.
    pub tacked: Vec<Tacked>,
    /// What to know of all this, faults of kiln and glass included.
    pub notices: Vec<Notice>,
}

/// The firings of a piece: accents are tacked only where there are some.
pub fn of(plan: &Plan) -> Vec<Firing> {
    let tack = plan.accents.as_ref().map(|_| Firing::TackFuse);
    [Some(Firing::FullFuse), tack, Some(Firing::Slump)].into_iter().flatten().collect()
}

impl Firings {
    /// Works them out, and lets the disc sink.
    ///
    /// # Errors
    /// Every fault of the kiln's numbers.
    pub fn new(plan: &Plan, kiln: &Kiln) -> Result<Self, Vec<Notice>> {
        let faults = checks::check(kiln);
        if !faults.is_empty() {
            return Err(faults);
        }
        let (wall, fitted) = cooling::wall(kiln, kiln.shelf_heat());
        let bench = Bench { kiln, wall };
        let (mut programs, mut notices) = (Vec::new(), Vec::new());
        let (settled, trouble) = sinking::settles(plan, bench);
        notices.extend(trouble);
        for firing in of(plan) {
            match Program::new(plan, firing, bench, settled) {
                Ok(program) => programs.push(program),
                Err(fault) => notices.push(fault),
            }
        }
        notices.extend(fitted.and_then(badly_fitted));
        let metered = to_the_meter(kiln, &mut programs);
        let full = programs.iter().find(|program| program.firing == Firing::FullFuse);
        let stack = fused::stack(plan);
        let spread = full.map(|program| fused::size(plan, program.fluid_time));
        let edge = full.zip(spread).map(|(program, spread)| {
            edge((stack.across, stack.thick), (spread.across, spread.thick), program.fluid_time)
        });
        let tacked = programs.iter().find(|program| program.firing == Firing::TackFuse);
        let tacked = tacked.map_or_else(Vec::new, |program| forewarn::accents(plan, program.fluid_time));
        notices.extend(spread.and_then(|spread| forewarn::moves(plan, &spread)));
        notices.extend(forewarn::looks(plan, &tacked));
        notices.extend(forewarn::pressed(plan));
        notices.extend(beside_the_shelf(plan, kiln));
        Ok(Self {
            kiln: kiln.name.clone(),
            guess: kiln.guess,
            fitted,
            metered,
            costs: kiln.price.map(|price| programs.iter().map(|program| program.kwh * price).collect()),
            programs,
            spread,
            at_rest: at_rest(stack),
            edge,
            tacked,
            notices,
        })
    }

    /// Everything to know: of the programs too.
    pub fn all_notices(&self) -> impl Iterator<Item = &Notice> {
        self.notices.iter().chain(self.programs.iter().flat_map(|program| &program.notices))
    }
}

/// Brings all energies in proportion to what the owner's meter said about one of them.
fn to_the_meter(kiln: &Kiln, programs: &mut [Program]) -> bool {
    let Some(metered) = kiln.metered else { return false };
    let Some(program) = programs.iter().find(|program| program.firing == metered.firing) else {
        return false;
    };
    let share = metered.kwh / program.kwh;
    programs.iter_mut().for_each(|program| program.kwh *= share);
    true
}

/// Readings that no wall of this size explains, K.
const BADLY: f64 = 25.0;

fn badly_fitted(fitted: Fitted) -> Option<Notice> {
    (fitted.off > BADLY).then(|| {
        note(
            Firing::FullFuse,
            "A cooling unlike its kiln.",
            format!(
                "A kiln of this size and these walls cools at best {} K unlike what was read.",
                fixed(fitted.off, 0)
            ),
            "Read it again, the lid shut and the power off, or look size and walls up again.",
            None,
        )
    })
}

/// A disc wider than what the shelf holds.
fn beside_the_shelf(plan: &Plan, kiln: &Kiln) -> Option<Notice> {
    let room = Mm(kiln.shelf.narrowest().0 - 2.0 * kiln.edge.0);
    let disc = Mm(2.0 * f64::from(plan.disc.radius()));
    (disc > room).then(|| {
        let mend = DISC.holds(room.0).then_some(Mend::Cut(room));
        let why = format!(
            "A disc of {disc} does not lie on a shelf that has room for {room} within its free edge."
        );
        risk(
            Firing::FullFuse,
            "Wider than its shelf.",
            why,
            format!("Cut {room}, or take a larger kiln."),
            mend,
        )
    })
}
