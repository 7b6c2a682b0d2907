//! What a color that came out otherwise says: the powder lay deeper, or it is another jar.

use super::row::{Row, Says};
use crate::base::scalar::exp;
use crate::base::units::Mm;
use crate::color::difference::{Lab, de2000};
use crate::optics::test_tile;
use crate::recipe::plan::Plan;

/// A coat is tried at so many depths either side of the one asked, each a twelfth deeper than the one before, or less deep.
const STEPS: i32 = 12;
const STEP: f64 = 0.08;

/// What a row says, among all rows of its piece. `drawn` gives the colors of all rows in a photo of another plan.
pub fn says(plan: &Plan, at: usize, rows: &[Row], drawn: impl FnMut(&Plan) -> Vec<Option<Lab>>) -> Says {
    let row = &rows[at];
    if !row.is_off() {
        return Says::AsReckoned;
    }
    let Some((top, below)) = row.coats.split_last() else { return Says::Light };
    if lies_free(plan, row) {
        return by_depth(plan, *top, at, rows, drawn);
    }
    let itself =
        |coat: &u32| rows.iter().find(|other| other.coats.last() == Some(coat) && lies_free(plan, other));
    let blamed = below.iter().chain([top]).find(|coat| itself(coat).is_some_and(Row::is_off));
    blamed.map_or(Says::Other, |coat| Says::Follows(*coat))
}

/// Whether the topmost coat of a row lies on what it mostly lies on.
pub fn lies_free(plan: &Plan, row: &Row) -> bool {
    row.coats.split_last().is_some_and(|(top, below)| test_tile::lies_on(plan, *top) == below)
}

/// How deep a coat was asked to lie, mm of loose powder; none if there is no such coat.
pub fn asked(plan: &Plan, coat: u32) -> Option<f64> {
    plan.coat(coat).map(|planned| planned.sift.fall.middling())
}

/// Which depth of a coat explains best what came out: the piece is drawn with each, and looked at as the photo is (indirect inference:
/// Gourieroux, Monfort & Renault 1993, J. Appl. Econometrics 8, S85). All colors are looked at, since a coat shows in those over it too.
fn by_depth(
    plan: &Plan,
    coat: u32,
    at: usize,
    rows: &[Row],
    mut drawn: impl FnMut(&Plan) -> Vec<Option<Lab>>,
) -> Says {
    let Some(asked) = asked(plan, coat) else { return Says::Other };
    let tried = (-STEPS..=STEPS).map(|step| {
        let deeper = exp(STEP * f64::from(step));
        let colors = drawn(&with_depth(plan, coat, deeper));
        let off: Vec<f64> = rows.iter().zip(colors).map(|(row, color)| off(row, color)).collect();
        let all: f64 = off.iter().zip(rows).map(|(off, row)| (off / row.near) * (off / row.near)).sum();
        (deeper, all, off[at])
    });
    let Some((deeper, _, left)) = tried.min_by(|one, other| one.1.total_cmp(&other.1)) else {
        return Says::Other;
    };
    let (row, mm) = (&rows[at], Mm((asked * deeper * 100.0).round() / 100.0));
    match left {
        left if left < row.near => Says::AsIf(mm),
        left if left < 0.5 * row.apart() => Says::AsIfAndOther(mm),
        _ => Says::Other,
    }
}

/// A color that is seen in one of two photos only is off by this, CIEDE2000.
const UNSEEN: f64 = 20.0;

/// How far a color is from what came out.
fn off(row: &Row, color: Option<Lab>) -> f64 {
    match (row.fired, color) {
        (Some(fired), Some(color)) => de2000(fired.color, color),
        (None, None) => 0.0,
        _ => UNSEEN,
    }
}

/// The plan with one coat so many times as deep.
fn with_depth(plan: &Plan, coat: u32, deeper: f64) -> Plan {
    let mut plan = plan.clone();
    let planned = plan.coats.iter_mut().find(|planned| planned.sift.id == coat);
    planned
        .into_iter()
        .for_each(|planned| planned.sift.fall.set_middling(deeper * planned.sift.fall.middling()));
    plan
}
