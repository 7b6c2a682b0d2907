//! What of a program goes beyond what is good for the glass: said, with what to do, and never refused.

use super::anneal;
use super::piece::Piece;
use super::segment::Segment;
use super::usual;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Notice, Severity};
use crate::base::units::{Celsius, Minutes, fixed, plain};
use crate::recipe::Pace;
use crate::recipe::limits::{SEGMENT_HOLD, SLUMP_TOP};

/// The hottest soak, K above the annealing point. A judgment: beyond it stress is gone at once and the glass begins to sag.
const SOAK_ABOVE: f64 = 20.0;

/// A risk of a firing, with what answers it.
pub fn risk(
    firing: Firing,
    what: &str,
    why: String,
    remedy: impl Into<String>,
    mend: Option<Mend>,
) -> Notice {
    Notice { mend, ..Notice::new(Severity::Risk, firing.into(), what, why, remedy) }
}

/// A note of a firing, with what answers it.
pub fn note(
    firing: Firing,
    what: &str,
    why: String,
    remedy: impl Into<String>,
    mend: Option<Mend>,
) -> Notice {
    Notice { mend, ..Notice::new(Severity::Note, firing.into(), what, why, remedy) }
}

/// Everything in a program that goes beyond its limits. `fastest` is how fast each segment really goes at most, K/h.
pub fn notices(piece: &Piece, firing: Firing, segments: &[Segment], fastest: &[f64]) -> Vec<Notice> {
    let mut notices = Vec::new();
    for (segment, fastest) in segments.iter().zip(fastest) {
        let too_fast = |limit, what| too_fast(piece, firing, (segment, *fastest), limit, what);
        match segment.name {
            SegmentName::Heat => notices.extend(too_fast(usual::heating(piece).0, "Heats too fast")),
            SegmentName::Process => notices.extend(too_hot(piece, firing, segment.to.value)),
            SegmentName::Anneal => notices.extend(soak(piece, firing, segment)),
            SegmentName::Cool => {
                notices.extend(too_fast(anneal::fastest(piece.plate), "Falls too fast"));
                notices.extend(let_go(piece, firing, segment));
            }
            SegmentName::SecondCool | SegmentName::Off => {
                notices.extend(too_fast(usual::second_cooling(piece), "Cools too fast"));
            }
            SegmentName::Squeeze | SegmentName::Fall => {}
        }
    }
    notices
}

/// A rate beyond its limit: as asked, or what the kiln makes of *as it goes*.
fn too_fast(
    piece: &Piece,
    firing: Firing,
    (segment, fastest): (&Segment, f64),
    limit: f64,
    what: &str,
) -> Option<Notice> {
    let (rate, said) = match segment.pace.value {
        Pace::PerHour(rate) => (rate, format!("{} K/h", plain(rate))),
        Pace::AsItGoes => (fastest, format!("As it goes, up to {} K/h,", fixed(fastest, 0))),
    };
    if rate <= limit {
        return None;
    }
    let limit = fixed(limit, 0);
    let why = match segment.name {
        SegmentName::Cool => format!(
            "{said} leaves more than {} MPa in the core; {limit} K/h is the limit.",
            plain(anneal::MAY_STAY)
        ),
        _ => format!("{said} may crack it; {limit} K/h is the limit."),
    };
    let (remedy, mend) = match segment.pace.usual {
        Pace::PerHour(usual) => {
            (format!("Use {} K/h.", plain(usual)), Some(Mend::Rate(firing, segment.name, usual)))
        }
        Pace::AsItGoes => ("Lead it further down in the second cool.".into(), None),
    };
    let what = format!("{what} for {} mm.", fixed(piece.plate.thick.0, 1));
    Some(risk(firing, &what, why, remedy, mend))
}

fn too_hot(piece: &Piece, firing: Firing, top: Celsius) -> Option<Notice> {
    let hottest = piece.flow.hottest();
    (top > hottest).then(|| {
        note(
            firing,
            "Hotter than its viscosity is known.",
            format!("Softening and annealing point say little beyond {} °C.", fixed(hottest.0, 0)),
            "Fire a witness before a piece.",
            None,
        )
    })
}

fn soak(piece: &Piece, firing: Firing, segment: &Segment) -> Option<Notice> {
    let (at, strain, annealing) = (segment.to.value, piece.anneal.strain(), piece.anneal.annealing());
    let name = segment.name;
    if at < strain || at.0 > annealing.0 + SOAK_ABOVE {
        return Some(risk(
            firing,
            "Anneals beside its point.",
            format!(
                "{at} is not between its strain point, {} °C, and {} K above its annealing point, {} °C.",
                fixed(strain.0, 0),
                plain(SOAK_ABOVE),
                fixed(annealing.0, 0)
            ),
            format!("Soak at {}.", segment.to.usual),
            Some(Mend::Usual(firing, name)),
        ));
    }
    let shortest = anneal::shortest_soak(&piece.anneal, at, piece.plate) / 60.0;
    let enough = (shortest / 5.0).ceil() * 5.0;
    (segment.hold.value.0 < shortest).then(|| {
        let mend = SEGMENT_HOLD.holds(enough).then_some(Mend::Hold(firing, name, Minutes(enough)));
        let why = format!("At {at} stress and heat need {} min to go.", fixed(shortest, 0));
        risk(firing, "Too short to relax.", why, format!("Hold it {} min.", plain(enough)), mend)
    })
}

fn let_go(piece: &Piece, firing: Firing, segment: &Segment) -> Option<Notice> {
    (segment.to.value > piece.sets).then(|| {
        risk(
            firing,
            "Let go too early.",
            format!(
                "It sets only at {} °C, and the slow fall ends at {}.",
                fixed(piece.sets.0, 0),
                segment.to.value
            ),
            format!("Fall slowly to {}.", segment.to.usual),
            Some(Mend::Usual(firing, segment.name)),
        )
    })
}

/// A sheet that takes longer to settle than a hold may last.
pub fn too_cold(piece: &Piece, top: Celsius, minutes: Option<f64>, most: f64) -> Notice {
    let why = match minutes {
        Some(minutes) => format!(
            "At {top} it would take {} min to settle; a hold is at most {} min.",
            fixed(minutes, 0),
            plain(most)
        ),
        None => format!("At {top} glass of its kind does not flow."),
    };
    // Where it settles ten times faster.
    let log10 = piece.flow.curve().log10(top) - 1.0;
    let better = Celsius(piece.flow.curve().temperature(log10).0.ceil());
    let mend = SLUMP_TOP.holds(better.0).then_some(Mend::Top(Firing::Slump, better));
    let remedy = if mend.is_some() {
        format!("Fire it to {better}.")
    } else {
        "Use a softer glass or a shallower mold.".into()
    };
    risk(Firing::Slump, "Too cold to sink.", why, remedy, mend)
}

/// A slump that ends before the sheet has settled, which went this share of the way.
pub fn shallow(share: f64, needed: Option<f64>) -> Notice {
    let why = format!("It ends at {} % of what it takes to settle.", fixed(share * 100.0, 0));
    let remedy = match needed {
        Some(minutes) => {
            format!("Hold it {} min for the whole depth, or keep a shallow dome.", fixed(minutes.ceil(), 0))
        }
        None => "Fire it hotter for the whole depth.".into(),
    };
    note(Firing::Slump, "Won't reach its mold.", why, remedy, None)
}
