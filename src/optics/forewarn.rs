//! What the colors of a plan will not do, found before it costs a firing: coats that cannot be told apart once fired,
//! and powder that nobody will see.

use super::test_tile::{fired_pair, is_clear};
use crate::base::notice::{Notice, Severity, Step};
use crate::color::difference::{de2000, to_lab};
use crate::recipe::plan::{Plan, PlannedCoat};
use crate::recipe::{Fall, Side};

/// Below this CIEDE2000 difference two neighboring patches of glass read as one color. A judgment: about twice what
/// is usually called a just acceptable difference of colors side by side, since no edge between coats is sharp.
const ONE_COLOR: f64 = 6.0;

/// Notes on the colors of a plan.
pub fn notices(plan: &Plan) -> Vec<Notice> {
    let mut notices = reads_as_one(plan);
    if plan.side == Side::In && !plan.coats.is_empty() && !is_clear(plan) {
        notices.push(Notice::new(
            Severity::Note,
            Step::Slump,
            "Powder out of sight.",
            "With the powder inside, an opaque sheet hides it by day; it shows when the piece is lit from within.",
            "Turn the powder out, or use clear sheets.",
        ));
    }
    notices
}

/// A note for every coat of patches that hardly shows on a coat below it.
fn reads_as_one(plan: &Plan) -> Vec<Notice> {
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

fn name(coat: &PlannedCoat) -> &str {
    coat.blend.shares.first().map_or("This powder", |(glass, _)| &glass.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::demo;

    fn said(change: impl Fn(&mut crate::recipe::Recipe)) -> Vec<String> {
        let mut recipe = demo::ember_walk();
        change(&mut recipe);
        let plan = Plan::new(&recipe).expect("it is sound").plan;
        notices(&plan).into_iter().map(|notice| notice.what).collect()
    }

    #[test]
    fn what_the_colors_will_not_do_is_said() {
        assert_eq!(said(|_| ()), Vec::<String>::new());
        assert_eq!(said(|recipe| recipe.powder_side = Side::In), ["Powder out of sight."]);
        let twice = said(|recipe| recipe.coats[2].powder[0].glass = "clear".into());
        assert!(twice.contains(&"Reads as one color.".to_owned()), "{twice:?}");
    }
}
