//! Which colors of a piece an eye that lacks one kind of cones takes for each other.

use super::test_tile::{Color, blank_swatch, swatch};
use crate::color::dichromacy::Sight;
use crate::color::difference::{de2000, to_lab};
use crate::color::srgb::decode;
use crate::recipe::Fall;
use crate::recipe::plan::Plan;

/// What shows a color.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// The bare blank.
    Blank,
    /// The coat with this id, over what it mostly lies on.
    Coat(u32),
}

/// Two colors that most eyes tell apart and this one hardly does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Confused {
    /// Who looks.
    pub sight: Sight,
    /// The two.
    pub two: [Shows; 2],
    /// How far they are apart to that eye, CIEDE2000.
    pub apart: f64,
    /// How far to most eyes.
    pub usually: f64,
}

/// Colors nearer than this, CIEDE2000, are hard to tell apart from place to place in a piece, and farther ones than that plain to see
/// (judgments: between *close* and *a cousin* of the page's own words for differences).
const HARD: f64 = 7.0;
const PLAIN: f64 = 10.0;
/// Such eyes see no more than this part of the difference that most eyes see (a judgment).
const PART: f64 = 0.65;

/// All such pairs among the fired colors of a piece by day, the nearest first.
pub fn confused(plan: &Plan) -> Vec<Confused> {
    let shown = shown(plan);
    let mut confused = Vec::new();
    for (at, one) in shown.iter().enumerate() {
        for other in &shown[at + 1..] {
            let usually = apart(Sight::Usual, one.1, other.1);
            let two = [one.0, other.0];
            let by = |sight: Sight| Confused { sight, two, apart: apart(sight, one.1, other.1), usually };
            let hard = |pair: &Confused| usually > PLAIN && pair.apart < HARD && pair.apart < PART * usually;
            confused.extend(Sight::ALL.map(by).into_iter().filter(hard));
        }
    }
    confused.sort_by(|a, b| a.apart.total_cmp(&b.apart));
    confused
}

/// What is seen of a piece: its coats, and its blank where no coat lies everywhere.
fn shown(plan: &Plan) -> Vec<(Shows, Color)> {
    let everywhere = plan.coats.iter().any(|coat| !matches!(coat.sift.fall, Fall::Patches(_)));
    let blank = (!everywhere).then(|| (Shows::Blank, blank_swatch(plan)));
    let coats = plan.coats.iter().filter_map(|coat| {
        let id = coat.sift.id;
        Some((Shows::Coat(id), swatch(plan, id)?.1))
    });
    blank.into_iter().chain(coats).collect()
}

fn apart(sight: Sight, one: Color, other: Color) -> f64 {
    let lab = |color| to_lab(sight.sees(decode(color)));
    de2000(lab(one), lab(other))
}
