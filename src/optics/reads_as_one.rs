//! Two coats that cannot be told apart once fired: found before it costs a firing.

use super::test_tile::fired_pair;
use crate::base::notice::{Notice, Severity, Step};
use crate::color::difference::{de2000, to_lab};
use crate::glass::catalogue;
use crate::recipe::Fall;
use crate::recipe::plan::{Plan, PlannedCoat};

/// Below this CIEDE2000 difference two neighboring patches of glass read as one color. A judgment: about twice what
/// is usually called a just acceptable difference of colors side by side, since no edge between coats is sharp.
const ONE_COLOR: f64 = 6.0;

/// A note for every coat of patches that hardly shows on a coat below it.
pub fn notices(plan: &Plan) -> Vec<Notice> {
    let mut notices = Vec::new();
    for (upper, coat) in plan.coats.iter().enumerate() {
        if matches!(coat.sift.fall, Fall::Even { .. }) {
            continue;
        }
        for lower in 0..upper {
            let (without, with) = fired_pair(plan, lower, upper);
            if de2000(to_lab(without), to_lab(with)) < ONE_COLOR {
                notices.push(note(coat, &plan.coats[lower]));
            }
        }
    }
    notices
}

fn note(upper: &PlannedCoat, lower: &PlannedCoat) -> Notice {
    let (over, under) = (name(upper), name(lower));
    Notice::new(
        Severity::Note,
        Step::Coat(upper.sift.id),
        "Reads as one color.",
        format!("{over} over {} fires almost to {}.", under.to_lowercase(), under.to_lowercase()),
        format!("Sift {} first, or a thinner coat of {}.", over.to_lowercase(), under.to_lowercase()),
    )
}

fn name(coat: &PlannedCoat) -> &'static str {
    let first = coat.blend.shares.first().and_then(|(id, _)| catalogue::find(id));
    first.map_or("This powder", |glass| glass.name)
}
