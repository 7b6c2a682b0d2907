//! The usual program of a firing for a piece: what every segment is if the maker sets nothing, and why.

use super::anneal;
use super::piece::Piece;
use super::segment::{Choice, Segment, Source};
use super::thermal::{DENSITY, Exchange, HEAT_CAPACITY, across_per_kelvin};
use crate::base::firing::{Firing, SegmentName};
use crate::base::units::{Celsius, Minutes, fixed, plain};
use crate::recipe::Pace;

/// Tension at the edge that heating may bring, MPa. A judgment: half of the 10 MPa that a ground edge bears; no source.
const HEATING: f64 = 5.0;
/// Tension at the faces that a cooling glass may bear while it lasts, MPa. A judgment; window glass bears 45 for a short time (EN 572-1).
const WHILE_IT_LASTS: f64 = 10.0;
/// How unevenly a kiln heats: one side of the disc takes so much more than its middle, as a share. Assumed, no source.
const UNEVEN: f64 = 0.5;
/// Heat that a face takes from the kiln, W/(m² K): radiation at 300 °C, 4 epsilon sigma T³ with epsilon 0.9 (textbook).
const RADIATION: f64 = 4.0 * 0.9 * 5.670e-8 * 573.0 * 573.0 * 573.0;
/// The fastest heating, K/h, of however thin a glass: common practice, no source.
const FASTEST_HEATING: f64 = 300.0;
/// The fastest anneal, K/h, of however thin a glass: common practice, no source.
const FASTEST_ANNEAL: f64 = 80.0;

/// The fastest that glass may be heated from cold, K/h, and the temperature difference across it that this allows, K. The disc trails
/// the kiln by rho c d/h times the rate; a side that takes more heat trails less.
pub fn heating(piece: &Piece) -> (f64, f64) {
    let difference = HEATING / across_per_kelvin(piece.plate.expansion);
    let trails = DENSITY * HEAT_CAPACITY * piece.plate.thick.0 * 1e-3 / RADIATION;
    (difference / (UNEVEN * trails) * 3600.0, difference)
}

/// The fastest that set glass may be cooled, K/h, for the stress that lasts no longer than the cooling.
pub fn second_cooling(piece: &Piece) -> f64 {
    piece.plate.rate_for_face(WHILE_IT_LASTS, Exchange::OneFaceHeld)
}

/// The usual rate of the second cool, K/h: twice that of the first, if the glass bears it.
fn second_rate(piece: &Piece) -> f64 {
    rounded_down(second_cooling(piece).min(2.0 * anneal_rate(piece)))
}

/// The usual rate through the anneal, K/h.
fn anneal_rate(piece: &Piece) -> f64 {
    rounded_down(anneal::fastest(piece.plate).min(FASTEST_ANNEAL))
}

/// Down to the next five, or below ten to the next half; never none.
fn rounded_down(rate: f64) -> f64 {
    let step = if rate >= 10.0 { 5.0 } else { 0.5 };
    ((rate / step).floor() * step).max(0.5)
}

/// The top and the hold of the process, as the recipe has them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Process {
    /// The top.
    pub top: Celsius,
    /// The hold.
    pub hold: Minutes,
    /// Whether the hold was worked out, not set.
    pub until_settled: bool,
}

/// The usual program.
pub fn segments(piece: &Piece, firing: Firing, process: Process) -> Vec<Segment> {
    let mut segments = vec![heat(piece)];
    if firing == Firing::FullFuse {
        segments.push(squeeze(piece));
    }
    segments.push(process_segment(firing, process));
    segments.extend([fall(piece), soak(piece), cool(piece), second_cool(piece), off()]);
    segments
}

fn none() -> Choice<Minutes> {
    Choice::usual(Minutes(0.0), Source::Physics, "Nothing has to wait here.")
}

fn heat(piece: &Piece) -> Segment {
    let (limit, difference) = heating(piece);
    let through = piece.plate.rate_for_face(2.0 * HEATING, Exchange::OneFaceHeld);
    let thick = fixed(piece.plate.thick.0, 1);
    let why = format!(
        "An uneven kiln governs: a side of {thick} mm glass that takes half as much heat again runs {} K ahead at {} K/h, {} MPa at \
         the edge. Through its thickness alone it would bear {} K/h.",
        fixed(difference, 0),
        fixed(limit, 0),
        plain(HEATING),
        fixed(through, 0)
    );
    let rate = rounded_down(limit.min(FASTEST_HEATING));
    Segment {
        name: SegmentName::Heat,
        pace: Choice::usual(Pace::PerHour(rate), Source::Physics, why),
        to: Choice::usual(
            Celsius((piece.anneal.annealing().0 + 30.0).round()),
            Source::Practice,
            "Above its annealing point glass does not crack; 30 K for the kiln's own error.",
        ),
        hold: none(),
    }
}

fn squeeze(piece: &Piece) -> Segment {
    let to = Celsius((piece.flow.softening().0 - 30.0).round());
    let hold = round_up(30.0 * (piece.plate.thick.0 / 6.0).max(1.0));
    Segment {
        name: SegmentName::Squeeze,
        pace: Choice::usual(
            Pace::PerHour(150.0),
            Source::Practice,
            "Slow, so that the sheets sag from the middle out.",
        ),
        to: Choice::usual(
            to,
            Source::Practice,
            format!(
                "30 K below the softening point: 10^{} Pa s, soft enough to lie down and still too stiff to seal the rim.",
                fixed(piece.flow.curve().log10(to), 1)
            ),
        ),
        hold: Choice::usual(
            Minutes(hold),
            Source::Practice,
            "Half an hour lets the air out from under 6 mm, more from under more.",
        ),
    }
}

fn process_segment(firing: Firing, process: Process) -> Segment {
    let (rate, why) = match firing {
        Firing::FullFuse | Firing::TackFuse => {
            (300.0, "Soft glass bears any rate; fast, so that it does not devitrify.")
        }
        Firing::Slump => (150.0, "Slow, so that the whole disc is equally soft when it begins to sink."),
    };
    let hold = if process.until_settled {
        Choice::usual(
            process.hold,
            Source::Physics,
            "Until the sheet has settled in its mold. Verified as mathematics, not yet against a kiln: fire a witness and look in.",
        )
    } else {
        Choice::usual(process.hold, Source::Recipe, "As the recipe has it.")
    };
    Segment {
        name: SegmentName::Process,
        pace: Choice::usual(Pace::PerHour(rate), Source::Practice, why),
        to: Choice::usual(process.top, Source::Recipe, "As the recipe has it."),
        hold,
    }
}

fn fall(piece: &Piece) -> Segment {
    Segment {
        name: SegmentName::Fall,
        pace: Choice::usual(
            Pace::AsItGoes,
            Source::Kiln,
            "Soft glass bears any rate, so off and with the lid shut: what time is saved here is saved from devitrification.",
        ),
        to: Choice::usual(piece.anneal.annealing(), Source::Physics, "The anneal begins here."),
        hold: none(),
    }
}

fn soak(piece: &Piece) -> Segment {
    let at = piece.anneal.annealing();
    let shortest = anneal::shortest_soak(&piece.anneal, at, piece.plate) / 60.0;
    let practice = 30.0 * (piece.plate.thick.0 / 6.0).max(1.0);
    let (minutes, source) =
        if practice > shortest { (practice, Source::Practice) } else { (shortest, Source::Physics) };
    let why = format!(
        "Stress goes down to 1/e in {} s here and heat evens out in {} s: {} min would do for glass alone. The rest is for kiln and shelf.",
        fixed(anneal::relaxation(&piece.anneal, at), 0),
        fixed(piece.plate.time_constant(Exchange::OneFaceHeld), 0),
        fixed(shortest, 0)
    );
    Segment {
        name: SegmentName::Anneal,
        pace: Choice::usual(Pace::AsItGoes, Source::Kiln, "It is there already."),
        to: Choice::usual(at, Source::Physics, "The highest annealing point of its glasses: 10^12 Pa s."),
        hold: Choice::usual(Minutes(round_up(minutes)), source, why),
    }
}

fn cool(piece: &Piece) -> Segment {
    let limit = anneal::fastest(piece.plate);
    let rate = anneal_rate(piece);
    let thick = fixed(piece.plate.thick.0, 1);
    let why = format!(
        "{thick} mm that cools by one face and cannot bow keeps {} MPa in its core at {} K/h, the glass's own relaxation reckoned in; at \
         {} K/h it keeps {}.",
        plain(anneal::MAY_STAY),
        fixed(limit, 0),
        plain(rate),
        fixed(anneal::stays(piece.plate, rate), 2)
    );
    let source = if limit > FASTEST_ANNEAL { Source::Practice } else { Source::Physics };
    Segment {
        name: SegmentName::Cool,
        pace: Choice::usual(Pace::PerHour(rate), source, why),
        to: Choice::usual(
            Celsius(((piece.sets.0 - 50.0) / 10.0).floor() * 10.0),
            Source::Practice,
            format!(
                "50 K below the lowest strain point, {} °C, for the kiln's own unevenness.",
                fixed(piece.sets.0, 0)
            ),
        ),
        hold: none(),
    }
}

fn second_cool(piece: &Piece) -> Segment {
    let limit = second_cooling(piece);
    let why = format!(
        "Set glass keeps nothing of it: twice the rate before. Its faces would bear {} K/h while it lasts.",
        fixed(limit, 0)
    );
    // Thick glass is led to where a light kiln, too, goes slowly by itself.
    let led = if limit >= 500.0 {
        300.0
    } else if limit >= 200.0 {
        150.0
    } else {
        80.0
    };
    let to = (piece.sets.0 - 100.0).min(led);
    Segment {
        name: SegmentName::SecondCool,
        pace: Choice::usual(Pace::PerHour(second_rate(piece)), Source::Practice, why),
        to: Choice::usual(
            Celsius((to / 10.0).floor() * 10.0),
            Source::Practice,
            "From here most kilns cool slower by themselves.",
        ),
        hold: none(),
    }
}

fn off() -> Segment {
    Segment {
        name: SegmentName::Off,
        pace: Choice::usual(Pace::AsItGoes, Source::Kiln, "By itself, the lid shut."),
        to: Choice::usual(Celsius(60.0), Source::Practice, "Opened warmer, a draft can crack it."),
        hold: none(),
    }
}

/// Up to the next five minutes.
fn round_up(minutes: f64) -> f64 {
    (minutes / 5.0 - 1e-9).ceil() * 5.0
}
