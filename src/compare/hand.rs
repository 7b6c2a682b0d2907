//! The maker's hand, over several fired pieces: how much deeper than asked it sifts, and how much more it covers.

use super::row::{Row, Says};
use super::says::{asked, lies_free};
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// What one coat of one fired piece tells of the hand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Told {
    /// How deep it came to lie, of what was asked 1.
    pub deeper: f64,
    /// How much of the disc it covers more than was asked, -1 to 1.
    pub covers: f64,
}

impl Told {
    /// Whether it can have been seen.
    pub fn is_sound(&self) -> bool {
        (0.01..=100.0).contains(&self.deeper) && self.covers.abs() <= 1.0
    }
}

/// Fewer coats than this tell nothing of a hand.
const FEWEST: usize = 3;

/// What the rows of a piece tell: each coat that lies free and came out as reckoned, or as if another depth.
pub fn told(plan: &Plan, rows: &[Row]) -> Vec<Told> {
    let of = |row: &Row| {
        let fired = row.fired?;
        let asked = asked(plan, *row.coats.last()?)?;
        let deeper = match fired.says {
            Says::AsReckoned => 1.0,
            Says::AsIf(depth) => depth.0 / asked,
            _ => return None,
        };
        lies_free(plan, row).then_some(Told { deeper, covers: fired.share - row.share })
    };
    rows.iter().filter_map(of).collect()
}

/// The hand that so many coats tell of: the median of each; none if they are too few.
pub fn hand(told: &[Told]) -> Option<Told> {
    let median = |of: fn(&Told) -> f64| {
        let mut values: Vec<f64> = told.iter().map(of).collect();
        values.sort_by(f64::total_cmp);
        let (lower, upper) = (values[(values.len() - 1) / 2], values[values.len() / 2]);
        0.5 * (lower + upper)
    };
    (told.len() >= FEWEST)
        .then(|| Told { deeper: median(|told| told.deeper), covers: median(|told| told.covers) })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the middle one of three, and between the two middle ones of four.
    #[test]
    fn a_hand_is_the_median_of_its_coats() {
        let one = |deeper, covers| Told { deeper, covers };
        let coats = [one(1.3, 0.1), one(1.0, 0.0), one(1.2, -0.1), one(9.0, 0.02)];
        assert_eq!(hand(&coats[..2]), None);
        assert_eq!(hand(&coats[..3]), Some(one(1.2, 0.0)));
        assert_eq!(hand(&coats), Some(one(1.25, 0.01)));
    }
}
