//! Row by row: a color of the forecast, what it came out as, and what that says.

use super::foretold::{Color, colors, places};
use super::nearest::{Seen, nearest};
use super::row::{Fired, Row, Says};
use super::says::says;
use crate::base::seed::Seed;
use crate::color::difference::{Lab, de2000};
use crate::preview::Preview;
use crate::recipe::plan::Plan;

/// As near as a photo tells, CIEDE2000 (common practice, no source: what a marked white and 8 bits leave).
const NEAR: f64 = 2.5;
/// Layouts beside its own that show how far one is from another.
const SISTERS: u32 = 5;
/// So many times as far as the farthest of them may be what came out (own study, `tests/compare.rs`).
const FARTHER: f64 = 1.5;

/// The rows of a piece, those on most of it first, with what a photo shows inside its rim, fused and by day. What was foretold is looked at
/// as the photo is, so that both are off by the same.
pub fn rows(preview: &mut Preview, plan: &Plan, seed: Seed, photo: &[Lab]) -> Vec<Row> {
    let of = colors(preview, plan, seed);
    let centers: Vec<Lab> = of.iter().map(|one| one.color).collect();
    let asked = nearest(&centers, &places(preview, plan, seed));
    let sisters: Vec<_> = (1..=SISTERS)
        .map(|by| nearest(&centers, &places(preview, plan, Seed(seed.0.wrapping_add(by)))))
        .collect();
    let fired = nearest(&centers, photo);
    let row = |at: usize| {
        let asked = asked[at]?;
        let near = how_near(&asked, sisters.iter().filter_map(|sister| sister[at]));
        Some((at, row(&of[at], &asked, near, fired[at])))
    };
    let (of_row, mut rows): (Vec<usize>, Vec<Row>) = (0..of.len()).filter_map(row).unzip();
    for at in 0..rows.len() {
        let said = says(plan, at, &rows, |other| {
            let seen = nearest(&centers, &places(preview, other, seed));
            of_row.iter().map(|at| seen[*at].map(|seen| seen.color)).collect()
        });
        rows[at].fired.iter_mut().for_each(|fired| fired.says = said);
    }
    rows
}

/// How far what came out may be from the forecast and yet be as reckoned.
fn how_near(asked: &Seen, sisters: impl Iterator<Item = Seen>) -> f64 {
    let farthest = sisters.map(|seen| de2000(asked.color, seen.color)).fold(0.0, f64::max);
    NEAR.max(FARTHER * farthest)
}

/// A row of which it is not known yet what it says.
fn row(of: &Color, asked: &Seen, near: f64, fired: Option<Seen>) -> Row {
    let fired = fired.map(|Seen { color, share }| Fired {
        color,
        share,
        apart: de2000(asked.color, color),
        says: Says::AsReckoned,
    });
    Row { coats: of.coats.clone(), share: asked.share, foretold: asked.color, near, fired }
}

/// The row that came out otherwise by itself, and the most so; none if all are as reckoned.
pub fn worst(rows: &[Row]) -> Option<&Row> {
    let itself =
        |row: &&Row| row.is_off() && row.fired.is_some_and(|fired| !matches!(fired.says, Says::Follows(_)));
    rows.iter().filter(itself).max_by(|one, other| one.apart().total_cmp(&other.apart()))
}
