//! What can be wrong with the firings of a recipe. What only goes beyond what is good for the glass is for the kiln to say.

use super::check::Check;
use super::firing::{Pace, SetSegment};
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
    let step = Step::from(firing);
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
    for (at, one) in set.iter().enumerate() {
        if set[..at].iter().any(|other| other.segment == one.segment) {
            check.fault(
                step,
                "A segment set twice.",
                format!(
                    "The {} has two settings of its segment \"{}\".",
                    firing.name(),
                    one.segment.name(firing)
                ),
                "Keep one of them.",
            );
        }
        segment(check, firing, one);
    }
}

fn segment(check: &mut Check, firing: Firing, set: &SetSegment) {
    let name = set.segment.name(firing);
    let (rate, to, hold) = segment_limits(set.segment);
    let pace = match set.pace {
        Some(Pace::PerHour(rate)) => Some(rate),
        // It is within any limit.
        Some(Pace::AsItGoes) => Some(limits::RATE.usual),
        None => None,
    };
    for (what, value, limit, unit) in [
        ("rate", pace, rate, "K/h"),
        ("end", set.to.map(|to| to.0), to, "°C"),
        ("hold", set.hold.map(|hold| hold.0), hold, "min"),
    ] {
        let Some(value) = value else { continue };
        match limit {
            Some(limit) => {
                check.range(Step::from(firing), &format!("The {what} of \"{name}\""), value, limit, unit);
            }
            None => {
                check.fault(
                    Step::from(firing),
                    "Set in the wrong place.",
                    format!("The {what} of \"{name}\" follows from the rest of the recipe."),
                    "Leave it out, and set the top, its hold or the neighboring segment.",
                );
            }
        }
    }
}

/// The limits of a segment's rate, end and hold; none where it has none of its own.
pub fn segment_limits(segment: SegmentName) -> (Option<Limit>, Option<Limit>, Option<Limit>) {
    let (rate, to, hold) = (Some(limits::RATE), Some(limits::SEGMENT_TO), Some(limits::SEGMENT_HOLD));
    match segment {
        SegmentName::Process | SegmentName::Fall => (rate, None, None),
        SegmentName::Anneal => (None, to, hold),
        SegmentName::Off => (None, Some(limits::OPEN_BELOW), None),
        SegmentName::Heat | SegmentName::Squeeze | SegmentName::Cool | SegmentName::SecondCool => {
            (rate, to, hold)
        }
    }
}
