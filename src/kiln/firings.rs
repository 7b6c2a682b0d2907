//! All firings of a piece in a kiln: programs, hours, energy and cost, and what the glass becomes in them.

use super::beyond::{note, risk};
use super::checks;
use super::cooling::{self, Fitted};
use super::data::Kiln;
use super::program::{Bench, Program};
use crate::base::firing::Firing;
use crate::base::notice::{Mend, Notice};
use crate::base::units::{Celsius, Mm, fixed};
use crate::fuse::edge_profile::{EdgeProfile, edge};
use crate::fuse::spread::{AtRest, Spread, Stack, Tendency, at_rest, spread};
use crate::fuse::tack::{Look, Tacked, tack};
use crate::recipe::limits::{DISC, KEEPS_ITS_SIZE, MOST_SHEETS, TACK_TOP};
use crate::recipe::plan::Plan;
use crate::recipe::{Form, Side};
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
    /// Works them out. `settled` is the reduced time in which the sheet settles in its mold.
    ///
    /// # Errors
    /// Every fault of the kiln's numbers.
    pub fn new(plan: &Plan, kiln: &Kiln, settled: f64) -> Result<Self, Vec<Notice>> {
        let faults = checks::check(kiln);
        if !faults.is_empty() {
            return Err(faults);
        }
        let (wall, fitted) = cooling::wall(kiln, kiln.shelf_heat());
        let (mut programs, mut notices) = (Vec::new(), Vec::new());
        for firing in of(plan) {
            match Program::new(plan, firing, Bench { kiln, wall }, settled) {
                Ok(program) => programs.push(program),
                Err(fault) => notices.push(fault),
            }
        }
        notices.extend(fitted.and_then(badly_fitted));
        let metered = to_the_meter(kiln, &mut programs);
        let fused = programs.iter().find(|program| program.firing == Firing::FullFuse);
        let stack = stack(plan);
        let spread = fused.map(|program| spread(stack, program.fluid_time));
        let edge = fused.zip(spread).map(|(program, spread)| {
            edge((stack.across, stack.thick), (spread.across, spread.thick), program.fluid_time)
        });
        let tacked = programs.iter().find(|program| program.firing == Firing::TackFuse);
        let tacked = tacked.map_or_else(Vec::new, |program| tacked_by(plan, program));
        notices.extend(spread.and_then(|spread| moves(plan, stack, &spread)));
        notices.extend(looks(plan, &tacked));
        notices.extend(pressed(plan));
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

fn stack(plan: &Plan) -> Stack {
    let (across, thick) = (2.0 * f64::from(plan.disc.radius()), f64::from(plan.blank_thickness()));
    Stack { across: Mm(across), thick: Mm(thick), dam: plan.fuse.dam }
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

/// What a disc that does not keep its size is told. What the stack alone says, the plan has said already.
fn moves(plan: &Plan, stack: Stack, spread: &Spread) -> Option<Notice> {
    let (least, most) = KEEPS_ITS_SIZE;
    if spread.tendency == Tendency::Holds || !(least..=most).contains(&stack.thick.0) {
        return None;
    }
    let to = format!(
        "{} to {} mm",
        fixed(spread.slips.0.min(spread.sticks.0), 0),
        fixed(spread.slips.0.max(spread.sticks.0), 0)
    );
    let why = format!(
        "{} mm of glass, {} across, ends at {to} in this program.",
        fixed(stack.thick.0, 1),
        stack.across
    );
    if spread.tendency == Tendency::DrawsIn {
        let mend = (plan.sheets.len() < MOST_SHEETS).then_some(Mend::AddSheet(Mm(3.0)));
        return Some(risk(Firing::FullFuse, "Draws in.", why, "Add a sheet, or fire it shorter.", mend));
    }
    let smaller = (stack.across.0 * stack.across.0 / spread.across.0).floor();
    let remedy = format!("Dam it at {}, or cut {} mm.", stack.across, fixed(smaller, 0));
    let mend = DISC.holds(stack.across.0).then_some(Mend::Dam(stack.across));
    Some(risk(Firing::FullFuse, "Spreads.", why, remedy, mend))
}

fn tacked_by(plan: &Plan, program: &Program) -> Vec<Tacked> {
    let sizes = plan.accents.as_ref().map_or((0.0, 0.0), |accents| accents.sizes);
    [sizes.0, sizes.1].map(|size| tack(Mm(f64::from(size)), program.fluid_time)).into()
}

/// Accents that come out too sharp, or melt flat.
fn looks(plan: &Plan, tacked: &[Tacked]) -> Vec<Notice> {
    let top = plan.tack.top.0;
    let to = |by: f64| {
        let top = Celsius(top + by);
        TACK_TOP.holds(top.0).then_some(Mend::Top(Firing::TackFuse, top))
    };
    let size = |tacked: &Tacked| format!("Pieces of {}", tacked.size);
    let sharp = tacked.iter().find(|tacked| tacked.look == Look::Sharp).map(|tacked| {
        let why = format!("{} keep edges of {} mm.", size(tacked), fixed(tacked.edge.0, 2));
        risk(Firing::TackFuse, "Too sharp.", why, "Fire it 15 °C hotter, or hold it longer.", to(15.0))
    });
    let flat = tacked.iter().find(|tacked| tacked.look == Look::Flat).map(|tacked| {
        let why = format!("{} sink into the glass below them.", size(tacked));
        note(Firing::TackFuse, "Melts flat.", why, "Fire it 15 °C cooler, or hold it shorter.", to(-15.0))
    });
    sharp.into_iter().chain(flat).collect()
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

/// Powder out in a hollow mold lies on it, and so do the accents.
fn pressed(plan: &Plan) -> Option<Notice> {
    let faces_down = (plan.side == Side::Out) != (plan.mold.form == Form::Hump);
    (faces_down && plan.accents.as_ref().is_some_and(|accents| accents.count > 0)).then(|| {
        note(
            Firing::Slump,
            "Accents press into the mold.",
            "The side with the powder lies on the mold, and the accents with it.".into(),
            "Wash the mold well, turn the powder to the other side, or drape it over a hump.",
            None,
        )
    })
}
