//! What the firings of a plan will do to its glass, found before it costs one: in a small brick kiln that is a guess, for what glass does
//! hardly depends on the kiln that keeps its program.

use super::bench::Bench;
use super::beyond::{note, risk};
use super::clock::Clock;
use super::data::{Guess, Kiln};
use super::fused::{fused, stack, tacked};
use super::piece::Piece;
use super::program::sinks;
use super::sinking;
use crate::base::firing::Firing;
use crate::base::notice::{Mend, Notice};
use crate::base::units::{Celsius, Mm, fixed};
use crate::fuse::spread::{Spread, Tendency};
use crate::fuse::tack::{Look, Tacked, tack};
use crate::recipe::limits::{DISC, KEEPS_ITS_SIZE, MOST_SHEETS, TACK_TOP};
use crate::recipe::plan::Plan;
use crate::recipe::{Form, Side};

/// Risks and notes on what becomes of the glass: of the fuse, the accents and the slump. A firing that this kiln does not get through is
/// said where the kiln is looked at.
pub fn notices(plan: &Plan) -> Vec<Notice> {
    let kiln = Kiln::guess(Guess::SmallBrick);
    let bench = Bench::of(&kiln);
    let mut notices: Vec<Notice> =
        fused(plan, bench).ok().and_then(|fused| moves(plan, &fused)).into_iter().collect();
    if plan.accents.is_some() {
        notices.extend(
            tacked(plan, bench).map_or_else(|_| Vec::new(), |given| looks(plan, &accents(plan, given))),
        );
    }
    notices.extend(pressed(plan));
    let (settled, trouble) = sinking::settles(plan, bench);
    notices.extend(trouble);
    let clock = Clock::new(plan, bench, plan.slump.top);
    let piece = Piece::new(plan, Firing::Slump);
    notices
        .extend(clock.ok().zip(piece.ok()).and_then(|(clock, piece)| sinks(plan, &piece, &clock, settled).1));
    notices
}

/// What a disc that does not keep its size is told. What the stack alone says, the plan has said already.
pub fn moves(plan: &Plan, spread: &Spread) -> Option<Notice> {
    let stack = stack(plan);
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

/// The smallest and the largest accent behind so much fluid time of the tack fuse, 1/Pa.
pub fn accents(plan: &Plan, fluid_time: f64) -> Vec<Tacked> {
    let Some(accents) = &plan.accents else { return Vec::new() };
    [accents.sizes.0, accents.sizes.1].map(|size| tack(Mm(f64::from(size)), fluid_time)).into()
}

/// Accents that come out too sharp, or melt flat.
pub fn looks(plan: &Plan, tacked: &[Tacked]) -> Vec<Notice> {
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

/// Powder out in a hollow mold lies on it, and so do the accents.
pub fn pressed(plan: &Plan) -> Option<Notice> {
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
