//! What can be wrong with the firings of a recipe. What only goes beyond what is good for the glass is for the kiln to say.

use super::check::Check;
use super::firing::Pace;
use super::limits::{self, Limit};
use super::model::Recipe;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Step};

pub(super) fn firings(check: &mut Check, recipe: &Recipe) {
    let fuse = &recipe.fuse;
    check.range(Step::Fuse, "The top of the full fuse", fuse.top.0, limits::FUSE_TOP, "°C");
    check.range(Step::Fuse, "The hold of the full fuse", fuse.hold.0, limits::FUSE_HOLD, "min");
    dam(check, recipe);
    if let Some(accents) = &recipe.accents {
        let tack = &accents.tack;
        check.range(Step::Accents, "The top of the tack fuse", tack.top.0, limits::TACK_TOP, "°C");
        check.range(Step::Accents, "The hold of the tack fuse", tack.hold.0, limits::TACK_HOLD, "min");
    }
    check.range(Step::Slump, "The top of the slump", recipe.slump.top.0, limits::SLUMP_TOP, "°C");
    if let Some(hold) = recipe.slump.hold {
        check.range(Step::Slump, "The hold of the slump", hold.0, limits::SLUMP_HOLD, "min");
    }
    for firing in [Firing::FullFuse, Firing::TackFuse, Firing::Slump] {
        programs(check, recipe, firing);
    }
}

fn dam(check: &mut Check, recipe: &Recipe) {
    let Some(dam) = recipe.fuse.dam else { return };
    let disc = recipe.blank.diameter;
    if check.length(Step::Fuse, "The dam", dam, limits::DISC) && dam < disc {
        check
            .fault(
                Step::Fuse,
                "A dam inside its disc.",
                format!("A dam of {dam} does not go around a disc of {disc}."),
                format!("Stand it at {disc} or wider, or cut a smaller disc."),
            )
            .mend = limits::DISC.holds(disc.0).then_some(Mend::Dam(disc));
    }
}

fn programs(check: &mut Check, recipe: &Recipe, firing: Firing) {
    let step = step_of(firing);
    let set = recipe.programs.of(firing);
    if set.len() > limits::MOST_SEGMENTS {
        check.fault(
            step,
            "Too many segments.",
            format!("The program of the {} sets {}.", firing.name(), set.len()),
            format!("Set at most {}, each once.", limits::MOST_SEGMENTS),
        );
        return;
    }
    for (at, segment) in set.iter().enumerate() {
        let name = segment.segment.name(firing);
        if set[..at].iter().any(|other| other.segment == segment.segment) {
            check.fault(
                step,
                "A segment set twice.",
                format!("The {} has two settings of its segment \"{name}\".", firing.name()),
                "Keep one of them.",
            );
        }
        let (to, hold) = places(segment.segment);
        if let Some(Pace::PerHour(rate)) = segment.pace {
            check.range(step, &format!("The rate of \"{name}\""), rate, limits::RATE, "K/h");
        }
        let mut number =
            |what: &str, value: Option<f64>, limit: Option<Limit>, unit: &str| match (value, limit) {
                (Some(value), Some(limit)) => {
                    check.range(step, &format!("{what} of \"{name}\""), value, limit, unit);
                }
                (Some(_), None) => {
                    check.fault(
                        step,
                        "Set in the wrong place.",
                        format!("{what} of \"{name}\" follows from the rest of the recipe."),
                        "Leave it out, and set the top, its hold or the neighboring segment.",
                    );
                }
                _ => {}
            };
        number("The end", segment.to.map(|to| to.0), to, "°C");
        number("The hold", segment.hold.map(|hold| hold.0), hold, "min");
        if segment.segment == SegmentName::Off && segment.pace.is_some()
            || segment.segment == SegmentName::Anneal && segment.pace.is_some()
        {
            check.fault(
                step,
                "Set in the wrong place.",
                format!("\"{name}\" has no rate of its own."),
                "Leave it out.",
            );
        }
    }
}

/// The limits of a segment's end and hold; none where it has none of its own.
fn places(segment: SegmentName) -> (Option<Limit>, Option<Limit>) {
    let (to, hold) = (Some(limits::SEGMENT_TO), Some(limits::SEGMENT_HOLD));
    match segment {
        SegmentName::Process | SegmentName::Fall => (None, None),
        SegmentName::Off => (Some(limits::OPEN_BELOW), None),
        _ => (to, hold),
    }
}

/// The step of the recipe that a firing belongs to.
pub(super) fn step_of(firing: Firing) -> Step {
    match firing {
        Firing::FullFuse => Step::Fuse,
        Firing::TackFuse => Step::Accents,
        Firing::Slump => Step::Slump,
    }
}
