//! The firings in words: what the open steps say of them, and their programs.

use super::recipe;
use super::text::{capital, lower};
use dappledome::base::firing::{Firing, SegmentName};
use dappledome::base::units::{Celsius, Minutes, Mm, fixed, plain};
use dappledome::fuse::spread::{AtRest, Spread, Tendency};
use dappledome::fuse::tack::{Look, Tacked};
use dappledome::kiln::anneal::MAY_STAY;
use dappledome::kiln::program::Program;
use dappledome::kiln::segment::Source;
use dappledome::shop::ticket::{FiringTakes, Ticket};

/// A slump that is held until the sheet has settled.
pub const FULL: &str = "full";
/// A segment that runs as fast as the kiln goes.
pub const AS_IT_GOES: &str = "as it goes";
/// The area of the programs.
pub const FIRINGS: &str = "Firings";
/// Lays it aside.
pub const CLOSE_FIRINGS: &str = "Close the firings";
/// Opens the program of a step.
pub const PROGRAM: &str = "Program";
/// The disc's edge before the fuse.
pub const AS_CUT: &str = "as cut";
/// The disc's edge behind it.
pub const AS_FUSED: &str = "as fused";
/// Head of the tack fuse in the accents.
pub const TACK_FUSE: &str = "Tack fuse";
/// A piece of frit before it is fired.
pub const AS_SET: &str = "as set";
/// Before the time of switching on.
pub const START: &str = "Start";
/// When the kiln is switched on, of the firings.
pub const STARTS_AT: &str = "Switched on at";
/// Temperatures whose meaning a chart names.
pub const SOFTENING: &str = "softening";
/// See above.
pub const ANNEALING: &str = "annealing";
/// See above.
pub const STRAIN: &str = "strain";
/// Heads of the table of a program.
pub const PROGRAM_HEADS: [&str; 6] = ["Segment", "Rate", "To", "Hold", "Takes", "Why this number"];
/// The name of a number of a segment, by its place in a row.
pub fn place(at: usize) -> &'static str {
    PROGRAM_HEADS[1..4].get(at).copied().unwrap_or_default()
}

/// Heads of the table beside a chart of temperature.
pub const COURSE_HEADS: [&str; 3] = ["Time", "Hours", "Temperature"];
/// Takes an own number back.
pub const AS_USUAL_AGAIN: &str = "As usual";
/// The keys of a number in a program.
pub const NUMBER_KEYS: &str = "Enter or a digit types over it, arrows step it, Backspace takes it back.";
/// The foot of the programs.
pub const FIRING_CAUTION: &str = "Burns and shock: switch off at the supply before you reach in. Where your kiln’s or your \
    glass’s maker says otherwise, theirs wins.";
/// How sure all of this is.
pub const NOT_YET_A_KILN: &str =
    "Times are verified mathematics and not yet a kiln: fire a witness and look in.";
/// A program that this kiln does not get through.
pub const NO_PROGRAM: &str = "This kiln does not get through it.";
/// The same in place of its hours.
pub const NOT_IN_THIS_KILN: &str = "not in this kiln";
/// The same in the margin, where there is less room.
pub const CANNOT: &str = "can’t";
/// An own number, as *Undo* names it.
pub const DID_PROGRAM: &str = "program";
/// The second strip of a program.
pub const CORE: &str = "What stays in the core";
/// Before the kiln's hours at the foot.
pub const KILN: &str = "Kiln";
/// Head of the firings in the ticket.
pub const FIRINGS_FOR_ONE: &str = "Firings, one piece in the kiln";

/// The name of a firing at the head of its program.
pub fn firing(firing: Firing) -> String {
    capital(firing.name())
}

/// The name of a segment in a table.
pub fn segment(segment: SegmentName, firing: Firing) -> String {
    capital(segment.name(firing))
}

/// A number of a segment, to those who do not see its row.
pub fn number_of(what: &str, name: SegmentName, firing: Firing) -> String {
    format!("{what} of {}", name.name(firing))
}

/// What a stack does in its full fuse, in weight.
pub fn tendency(tendency: Tendency) -> &'static str {
    match tendency {
        Tendency::Holds => "Holds its size.",
        Tendency::DrawsIn => "Draws in.",
        Tendency::Spreads => "Spreads.",
    }
}

/// From which width to which it goes: the two ends are glass that slips and glass that sticks.
pub fn size_after(cut: Mm, spread: &Spread) -> String {
    let (least, most) = (spread.slips.0.min(spread.sticks.0), spread.slips.0.max(spread.sticks.0));
    let does = if spread.tendency == Tendency::Holds { "stays" } else { "becomes" };
    let (least, most) = (fixed(least, 0), fixed(most, 0));
    let range = if least == most { format!("{most} mm") } else { format!("{least} to {most} mm") };
    format!("{} mm {does} {range}.", plain(cut.0))
}

/// Where its glass would come to rest.
pub fn rests(at_rest: &AtRest) -> String {
    format!(
        "However long it were held, it would end {} mm across and {} mm high.",
        fixed(at_rest.foot.0, 0),
        fixed(at_rest.high.0, 1)
    )
}

/// What the drawing of an edge shows.
pub fn edge_drawn(cut: Mm, fused: Mm, radius: Mm) -> String {
    format!(
        "{} mm high as cut, {} mm as fused, its edge rounded to {} mm",
        fixed(cut.0, 1),
        fixed(fused.0, 1),
        fixed(radius.0, 1)
    )
}

/// How a tacked piece looks.
pub fn look(look: Look) -> &'static str {
    match look {
        Look::Sharp => "sharp",
        Look::Rounded => "rounded",
        Look::Flat => "melted in",
    }
}

/// How the accents come out.
pub fn tacked(top: Celsius, hold: Minutes, pieces: &[Tacked]) -> String {
    let said: Vec<String> = pieces.iter().map(one_tacked).collect();
    format!("At {top} for {}: {}.", recipe::minutes(hold.0), said.join("; "))
}

fn one_tacked(piece: &Tacked) -> String {
    let neck = match piece.neck {
        Some(neck) => format!("neck {} mm across", fixed(neck.0, 1)),
        None => "sunk into the glass".into(),
    };
    format!(
        "{} mm {}, edges to {} mm, {neck}",
        fixed(piece.size.0, 1),
        look(piece.look),
        fixed(piece.edge.0, 1)
    )
}

/// One grain at this top.
pub fn grain_at(top: Celsius) -> String {
    top.to_string()
}

/// When the sheet lies in its mold; `hold` as the program has it.
pub fn settles(program: &Program, full: bool) -> String {
    let Some((top, hold)) =
        program.segment(SegmentName::Process).map(|segment| (segment.to.value, segment.hold.value))
    else {
        return String::new();
    };
    let held = recipe::minutes(hold.0);
    match (full, program.settles) {
        (true, Some(_)) => format!("Full after {held} at {top}."),
        (true, None) => format!("{held} at {top} are not enough for its whole depth."),
        (false, Some(_)) => format!("{held} at {top} are enough for its whole depth."),
        (false, None) => format!("{held} at {top}: a shallow dome."),
    }
}

/// Hours as a maker writes them: to the minute below an hour, to five above.
pub fn hours_long(hours: f64) -> String {
    let minutes = hours * 60.0;
    if minutes < 59.5 {
        return format!("{} min", fixed(minutes, 0));
    }
    let minutes = (minutes / 5.0).round() * 5.0;
    let whole = (minutes / 60.0) as u32;
    recipe::hours(whole, minutes - f64::from(whole) * 60.0)
}

/// A clock, so many minutes past midnight of the first day: `08:15`.
pub fn clock(minutes: f64) -> String {
    let minutes = minutes.round().max(0.0) as u64 % 1440;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

/// When a kiln switched on then may be opened: `08:15 the next day`.
pub fn opens(start: f64, hours: f64) -> String {
    let minutes = ((start + hours * 60.0) / 5.0).ceil() * 5.0;
    let day = match (minutes / 1440.0) as u64 {
        0 => String::new(),
        1 => " the next day".into(),
        days => format!(" {days} days later"),
    };
    format!("{}{day}", clock(minutes))
}

/// Behind the time of switching on.
pub fn open_at(start: f64, hours: f64) -> (String, String) {
    (", open at ".into(), opens(start, hours))
}

/// From when to when a closed program lasts.
pub fn from_until(start: f64, hours: f64) -> String {
    format!("{} to {}", clock(start), opens(start, hours))
}

/// Energy and its cost.
pub fn energy(kwh: f64, cost: Option<f64>) -> String {
    let cost = cost.map_or_else(String::new, |cost| format!(", costs {}", fixed(cost, 2)));
    format!("{} kWh{cost}", fixed(kwh, 1))
}

/// How far to trust an energy.
pub fn reckoned(metered: bool) -> &'static str {
    if metered { "by your meter" } else { "reckoned" }
}

/// Top and hold of a closed program.
pub fn top_and_hold(program: &Program) -> String {
    program.segment(SegmentName::Process).map_or_else(String::new, |segment| {
        format!("{} for {}", segment.to.value, recipe::minutes(segment.hold.value.0))
    })
}

/// Which firings a kiln gets through of so many, and how long they take together: `Full fuse and slump, 25 h 35`.
pub fn firings_in(programs: &[Program], all: usize) -> String {
    if programs.is_empty() {
        return "No firing gets through".into();
    }
    let names: Vec<String> = programs.iter().map(|program| program.firing.name().to_owned()).collect();
    let names = super::text::listed(&names);
    let names = if programs.len() < all { format!("Only {names}") } else { capital(&names) };
    format!("{names}, {}", hours_long(programs.iter().map(|p| p.hours).sum()))
}

/// The kiln at the foot: `25 h 35, 29 kWh`. Without one of the firings no sum would be true.
pub fn kiln_total(ticket: &Ticket) -> String {
    let takes: Option<Vec<FiringTakes>> = ticket.each_firing().map(|(_, takes)| takes).collect();
    takes.map_or_else(
        || NOT_IN_THIS_KILN.into(),
        |takes| {
            let (hours, kwh) = takes.iter().fold((0.0, 0.0), |(h, e), one| (h + one.hours, e + one.kwh));
            format!("{}, {} kWh", hours_long(hours), fixed(kwh, 0))
        },
    )
}

/// Before the name of the kiln.
pub const IN_KILN: &str = "in";

/// A kiln's name within a sentence.
pub fn kiln_within(name: &str) -> String {
    lower(&super::text::plain(name))
}

/// Where a number comes from.
pub fn source(source: Source) -> &'static str {
    match source {
        Source::Physics => "worked out from the glass",
        Source::Practice => "common practice, no source",
        Source::Recipe => "from the recipe",
        Source::Kiln => "what this kiln does",
    }
}

/// A reason as the page has it: differences in a time are written in °C as everywhere here.
pub fn reason(why: &str) -> String {
    why.replace("K/h", "°C/h")
}

/// The first sentence of a reason, for a row.
pub fn first_of(why: &str) -> String {
    let why = reason(why);
    let end = why.find(". ").or_else(|| why.strip_suffix('.').map(str::len)).unwrap_or(why.len());
    why[..end].into()
}

/// The reason of one number, with its source and what it usually is.
pub fn full_reason(what: &str, why: &str, from: Source, usual: Option<String>) -> String {
    let usual = usual.map_or_else(String::new, |usual| format!(" Yours; usually {usual}."));
    format!("{what}: {} ({}).{usual}", reason(why).trim_end_matches('.'), source(from))
}

/// The most that may stay in a core.
pub fn most_to_leave() -> String {
    format!("{} MPa, the most to leave in it", plain(MAY_STAY))
}

/// What stays in it.
pub fn stays_in_core(mpa: f64) -> String {
    format!("{} MPa stays in the core, for good", fixed(mpa, 2))
}

/// What heating pulls.
pub fn heating_pulls(mpa: f64) -> String {
    format!("Heating pulls only while it lasts: {} MPa in the core.", fixed(mpa, 2))
}

/// A stress on a scale.
pub fn stress(mpa: f64) -> String {
    plain(mpa)
}

/// That a chart shows a program.
pub fn chart_of(firing: Firing) -> String {
    format!("Temperature over time, {}", firing.name())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_said_to_five_minutes() {
        assert_eq!([0.61, 0.995, 1.0, 14.27].map(hours_long), ["37 min", "1 h 00", "1 h 00", "14 h 15"]);
        assert_eq!(hours_long(1.999), "2 h 00");
    }

    #[test]
    fn a_kiln_is_opened_no_earlier_than_it_may_be() {
        let six = 18.0 * 60.0;
        assert_eq!(opens(six, 14.26), "08:20 the next day");
        assert_eq!(opens(6.0 * 60.0, 5.0), "11:00");
        assert_eq!(opens(six, 54.0), "00:00 3 days later");
        assert_eq!(from_until(six, 5.9), "18:00 to 23:55");
    }

    #[test]
    fn a_size_is_said_with_its_range() {
        let mm = Mm;
        let spread = |tendency, slips, sticks| Spread {
            tendency,
            across: mm(f64::midpoint(slips, sticks)),
            slips: mm(slips),
            sticks: mm(sticks),
            thick: mm(6.0),
        };
        let holds = spread(Tendency::Holds, 157.6, 159.9);
        assert_eq!(size_after(mm(160.0), &holds), "160 mm stays 158 to 160 mm.");
        let spreads = spread(Tendency::Spreads, 177.0, 161.0);
        assert_eq!(size_after(mm(160.0), &spreads), "160 mm becomes 161 to 177 mm.");
        let dammed = spread(Tendency::Holds, 160.0, 160.0);
        assert_eq!(size_after(mm(160.0), &dammed), "160 mm stays 160 mm.");
    }

    #[test]
    fn a_row_has_the_first_sentence_of_its_reason() {
        assert_eq!(first_of("Soft glass bears any rate; fast. More."), "Soft glass bears any rate; fast");
        assert_eq!(first_of("At 81 K/h it keeps 0.5."), "At 81 °C/h it keeps 0.5");
    }
}
