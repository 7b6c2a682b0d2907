//! What the colors of a plan will not do, found before it costs a firing: coats that cannot be told apart once fired,
//! that hide what lies below them or come out mottled, and powder that nobody will see.

use super::test_tile::{fired_at, fired_pair, is_clear, shows_through, swatch_depth};
use crate::base::notice::{Mend, Notice, Severity, Step};
use crate::base::scalar::Bounds;
use crate::base::units::{Mm, plain, short};
use crate::color::difference::{de2000, to_lab};
use crate::fuse::speckle::fired_variation;
use crate::glass::cover;
use crate::recipe::limits::EVEN_DEPTH;
use crate::recipe::plan::{Plan, PlannedCoat};
use crate::recipe::{Fall, Side};

/// Below this CIEDE2000 difference two neighboring patches of glass read as one color. A judgment: about twice what
/// is usually called a just acceptable difference of colors side by side, since no edge between coats is sharp.
const ONE_COLOR: f64 = 6.0;

/// Notes on the colors of a plan.
pub fn notices(plan: &Plan) -> Vec<Notice> {
    let mut notices = reads_as_one(plan);
    notices.extend((1..plan.coats.len()).filter_map(|at| hides(plan, at)));
    notices.extend((0..plan.coats.len()).filter_map(|at| mottled(plan, at)));
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
    let (over, under) = (upper.blend.name(), lower.blend.name());
    Notice::new(
        Severity::Note,
        Step::Coat(upper.sift.id),
        "Reads as one color.",
        format!("{over} over {} fires almost to {}.", under.to_lowercase(), under.to_lowercase()),
        format!("Sift {} first, or a thinner coat of {}.", over.to_lowercase(), under.to_lowercase()),
    )
}

/// A note where a coat all over the disc lies so deep that even white and black under it would read as one color.
fn hides(plan: &Plan, at: usize) -> Option<Notice> {
    let coat = &plan.coats[at];
    let Fall::Even { depth } = coat.sift.fall else { return None };
    let through = |depth: f32| shows_through(&coat.blend, depth);
    if through(depth.f32()) >= ONE_COLOR {
        return None;
    }
    let most = deepest_where(depth.f32(), |depth| through(depth) >= 2.0 * ONE_COLOR);
    let (over, under) = (coat.blend.name(), plan.coats[at - 1].blend.name().to_lowercase());
    let how = if coat.blend.material.scatters() { "opal" } else { "dark" };
    let why = format!("{depth} of {} is so {how} that no {under} shows below it.", over.to_lowercase());
    let mend = Mm((f64::from(most) * 100.0).floor() / 100.0);
    let thin = EVEN_DEPTH.holds(mend.0);
    let remedy = if thin { format!("Sift {mend}.") } else { "Sift it first.".into() };
    let notice = Notice::new(Severity::Note, Step::Coat(coat.sift.id), "Hides what lies below.", why, remedy);
    Some(Notice { mend: thin.then_some(Mend::Sift(mend)), ..notice })
}

/// The deepest of the depths below `from` for which something holds that holds the better the thinner it lies, to a thousandth of `from`.
fn deepest_where(from: f32, holds: impl Fn(f32) -> bool) -> f32 {
    let (mut thin, mut deep) = (0.0, from);
    for _ in 0..10 {
        let middle = (thin + deep) / 2.0;
        *(if holds(middle) { &mut thin } else { &mut deep }) = middle;
    }
    thin
}

/// A note where grains are so coarse that places where they lie thick and places where they lie thin (one standard deviation) read as two
/// colors. Where they leave much bare, the plan has said so.
fn mottled(plan: &Plan, at: usize) -> Option<Notice> {
    let coat = &plan.coats[at];
    let depth = swatch_depth(&coat.sift.fall);
    let (grain, glass) = (coat.blend.sieve, depth * coat.blend.packing);
    if cover::bare(glass.into(), grain.into()) > cover::MOST_BARE {
        return None;
    }
    let varies = fired_variation(grain, glass);
    let [thin, thick] =
        [1.0 - varies, 1.0 + varies].map(|share| to_lab(fired_at(plan, at, depth * share.at_least(0.0))));
    let apart = de2000(thin, thick);
    (apart >= ONE_COLOR).then(|| {
        let name = coat.blend.name();
        Notice::new(
            Severity::Note,
            Step::Coat(coat.sift.id),
            "Speckle shows.",
            format!(
                "{name} has grains of {} mm: fired, its thin and its thick spots differ by {}.",
                plain(grain.into()),
                short(apart, 0)
            ),
            "Sieve it finer or sift it deeper, if it should be even.",
        )
    })
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
