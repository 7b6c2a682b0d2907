//! Kiln loads: what lies on the shelf together in each firing, for how long, with how much energy.

use super::checks::of_line;
use super::model::{Order, OwnedMold};
use super::packing::{Discs, Packings, Place};
use crate::base::firing::Firing;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::Mm;
use crate::kiln::data::{Guess, Kiln};
use crate::kiln::firings::Firings;
use crate::kiln::program::Program;
use crate::kiln::segment::Segment;
use crate::recipe::Mold;
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// Pieces of one order that are fired by one program and lie equally wide on the shelf: they may share a load, whatever their colors.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Batch {
    /// Which firing.
    pub firing: Firing,
    /// What one takes up on the shelf: the disc, or its mold if that is wider.
    pub across: Mm,
    /// The most that lie on the shelf at once, molds reckoned in.
    pub holds: u32,
    /// Whether it is the molds that leave room on the shelf.
    pub molds_limit: bool,
    /// Where so many lie: centers from the left and the front end of the shelf, mm.
    pub places: Vec<Place>,
    /// Hours from switching on until the kiln may be opened.
    pub hours: f64,
    /// Energy of one load, kWh.
    pub kwh: f64,
    /// The loads, in order.
    pub loads: Vec<Load>,
}

/// What lies on the shelf in one firing: (line, pieces).
pub type Load = Vec<(usize, u32)>;

/// Every load of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Loads {
    /// The kiln's name.
    pub kiln: String,
    /// Whether it is a guess.
    pub guess: bool,
    /// All of them, in the order of making.
    pub batches: Vec<Batch>,
    /// What cannot be fired, and what had to be assumed.
    pub notices: Vec<Notice>,
}

impl Loads {
    /// Energy of all firings, kWh.
    pub fn kwh(&self) -> f64 {
        self.batches.iter().map(|batch| batch.kwh * batch.loads.len() as f64).sum()
    }

    /// Hours of all firings.
    pub fn hours(&self) -> f64 {
        self.batches.iter().map(|batch| batch.hours * batch.loads.len() as f64).sum()
    }

    /// How many firings there are.
    pub fn firings(&self) -> usize {
        self.batches.iter().map(|batch| batch.loads.len()).sum()
    }
}

/// The kiln of an order: its own, or a guess.
pub fn kiln(order: &Order) -> Kiln {
    order.kiln.clone().unwrap_or_else(|| Kiln::guess(Guess::SmallBrick))
}

/// Pieces that go through one firing alike.
struct Alike<'a> {
    firing: Firing,
    across: Mm,
    molds: Option<u32>,
    mold: Option<&'a Mold>,
    program: Program,
    pieces: Vec<(usize, u32)>,
}

impl Loads {
    /// The loads of an order with so many pieces made of each line.
    ///
    /// # Errors
    /// Every fault of the kiln's numbers.
    pub fn new(
        order: &Order,
        plans: &[Plan],
        made: &[u32],
        packings: &mut Packings,
    ) -> Result<Self, Vec<Notice>> {
        let kiln = kiln(order);
        let (mut alike, mut notices): (Vec<Alike>, Vec<Notice>) = (Vec::new(), Vec::new());
        for (at, plan) in plans.iter().enumerate() {
            let firings = Firings::new(plan, &kiln)?;
            let line = &order.lines[at];
            // That a disc is wider than the shelf is said here for all that share its load.
            let worth = firings
                .all_notices()
                .filter(|notice| notice.severity != Severity::Note && notice.what != WIDER);
            notices.extend(worth.map(|notice| of_line(line, notice.clone())));
            for program in &firings.programs {
                join(&mut alike, one(order, plan, program, (at, made[at])));
            }
        }
        alike.sort_by_key(|alike| order_of_making(alike.firing));
        let owned = order.molds.is_some();
        notices.extend(order.kiln.is_none().then(|| no_kiln(&kiln)));
        notices.extend((!owned).then(no_molds));
        notices.extend(alike.iter().filter(|alike| owned && alike.lacks_mold()).map(no_mold));
        let mut batches = Vec::new();
        for alike in alike {
            match batch(&kiln, alike, packings) {
                Ok(batch) => batches.push(batch),
                Err(fault) => notices.push(fault),
            }
        }
        Ok(Self { kiln: kiln.name, guess: kiln.guess, batches, notices })
    }
}

fn order_of_making(firing: Firing) -> u8 {
    match firing {
        Firing::FullFuse => 0,
        Firing::TackFuse => 1,
        Firing::Slump => 2,
    }
}

fn one<'a>(order: &'a Order, plan: &'a Plan, program: &Program, pieces: (usize, u32)) -> Alike<'a> {
    let disc = Mm(2.0 * f64::from(plan.disc.radius()));
    let mold = (program.firing == Firing::Slump).then_some(&plan.mold);
    let owned = mold.and_then(|mold| order.molds.iter().flatten().find(|owned| owned.mold == *mold));
    let rim = mold.map_or(Mm(0.0), |mold| owned.map_or_else(|| mold.usual_rim(), |owned| owned.across));
    Alike {
        firing: program.firing,
        across: if rim > disc { rim } else { disc },
        molds: owned.map(|owned: &OwnedMold| owned.count),
        mold,
        program: program.clone(),
        pieces: vec![pieces],
    }
}

impl Alike<'_> {
    fn lacks_mold(&self) -> bool {
        self.mold.is_some() && self.molds.is_none()
    }
}

/// Puts pieces with those that go through the same firing alike.
fn join<'a>(all: &mut Vec<Alike<'a>>, new: Alike<'a>) {
    let same = |other: &&mut Alike| {
        other.firing == new.firing
            && other.across == new.across
            && other.mold == new.mold
            && alike(&other.program.segments, &new.program.segments)
    };
    match all.iter_mut().find(same) {
        Some(other) => {
            other.pieces.extend(new.pieces);
            if new.program.hours > other.program.hours {
                other.program = new.program;
            }
        }
        None => all.push(new),
    }
}

/// Whether two programs ask the same of the kiln.
fn alike(one: &[Segment], other: &[Segment]) -> bool {
    let asks = |segment: &Segment| (segment.name, segment.pace.value, segment.to.value, segment.hold.value);
    one.iter().map(asks).eq(other.iter().map(asks))
}

fn batch(kiln: &Kiln, alike: Alike, packings: &mut Packings) -> Result<Batch, Notice> {
    let discs = Discs { across: alike.across.0, gap: kiln.gap.0, edge: kiln.edge.0 };
    let pieces: u32 = alike.pieces.iter().map(|(_, count)| count).sum();
    let places = packings.most(kiln.shelf, discs, pieces as usize);
    let on_shelf = places.len() as u32;
    if on_shelf == 0 {
        return Err(too_wide(&alike, kiln));
    }
    let holds = on_shelf.min(alike.molds.unwrap_or(u32::MAX));
    Ok(Batch {
        firing: alike.firing,
        across: alike.across,
        holds,
        molds_limit: holds < on_shelf,
        places: places.into_iter().take(holds as usize).collect(),
        hours: alike.program.hours,
        kwh: alike.program.kwh,
        loads: in_loads(&alike.pieces, holds),
    })
}

/// Pieces in loads, each full but the last, so that one piece more never moves another one.
pub fn in_loads(pieces: &[(usize, u32)], holds: u32) -> Vec<Load> {
    let mut loads: Vec<Load> = Vec::new();
    let mut room = 0;
    for &(line, mut left) in pieces {
        while left > 0 {
            if room == 0 {
                loads.push(Vec::new());
                room = holds;
            }
            let some = left.min(room);
            loads.last_mut().into_iter().for_each(|load| load.push((line, some)));
            (left, room) = (left - some, room - some);
        }
    }
    loads
}

fn notice(severity: Severity, firing: Firing, what: &str, why: String, remedy: &str) -> Notice {
    Notice::new(severity, Step::from(firing), what, why, remedy)
}

fn no_kiln(guess: &Kiln) -> Notice {
    let why = format!("The order describes no kiln, so this one is reckoned with: {}.", guess.name);
    notice(
        Severity::Note,
        Firing::FullFuse,
        "A guessed kiln.",
        why,
        "Describe yours: it sets loads, hours and energy.",
    )
}

fn no_molds() -> Notice {
    let why =
        "The order does not say how many molds there are, so as many are reckoned as fill the shelf.".into();
    notice(
        Severity::Note,
        Firing::Slump,
        "No molds written down.",
        why,
        "Write them down: they set the number of slumps.",
    )
}

fn no_mold(alike: &Alike) -> Notice {
    let mold = alike
        .mold
        .map_or_else(String::new, |mold| format!("{} across and {} deep", mold.opening, mold.depth));
    let why = format!("None of the molds is {mold}, so as many are reckoned as fill the shelf.");
    notice(
        Severity::Risk,
        Firing::Slump,
        "No mold for a piece.",
        why,
        "Write down the molds that you have, or choose another one.",
    )
}

/// What the kiln's own notice calls it, too.
const WIDER: &str = "Wider than its shelf.";

fn too_wide(alike: &Alike, kiln: &Kiln) -> Notice {
    let room = Mm(kiln.shelf.narrowest().0 - 2.0 * kiln.edge.0);
    let why =
        format!("{} do not lie on a shelf that has room for {room} within its free edge.", alike.across);
    notice(Severity::Fault, alike.firing, WIDER, why, "Take a larger kiln, or cut smaller discs.")
}
