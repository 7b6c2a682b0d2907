//! The programs of the firings: as tables for the kiln, or as JSON.

use super::arguments::Program as Arguments;
use super::outcome::{Outcome, print};
use super::piece;
use dappledome::base::firing::SegmentName;
use dappledome::base::notice::Severity;
use dappledome::base::text::{capital, lower};
use dappledome::base::units::{fixed, plain};
use dappledome::fuse::spread::Tendency;
use dappledome::fuse::tack::Look;
use dappledome::kiln::cautions::{CAUTIONS, MAKERS_WIN};
use dappledome::kiln::data::{Kiln, MOST_BYTES};
use dappledome::kiln::firings::Firings;
use dappledome::kiln::program::{Program, Run};
use dappledome::kiln::segment::{Choice, Segment, Source};
use dappledome::recipe::Pace;
use dappledome::serve::trouble::Trouble;
use std::path::Path;

/// Prints them.
pub fn run(arguments: &Arguments) -> Outcome {
    let piece = piece::read(&arguments.of)?;
    let kiln = match &arguments.kiln {
        Some(path) => read(path)?,
        None => Kiln::guess(arguments.guess.into()),
    };
    let all = |notices: Vec<_>| notices.into_iter().map(Trouble::from).collect::<Vec<_>>();
    let firings = Firings::new(&piece.plan, &kiln).map_err(all)?;
    let (faults, others): (Vec<_>, Vec<_>) =
        firings.all_notices().cloned().partition(|notice| notice.severity == Severity::Fault);
    others.iter().filter(|notice| !piece.told.contains(notice)).for_each(piece::tell);
    if !faults.is_empty() {
        return Err(all(faults));
    }
    if arguments.json {
        let json = serde_json::to_string_pretty(&firings).expect("firings have only strings and numbers");
        return print(&(json + "\n"));
    }
    print(&in_lines(&firings))
}

fn read(path: &Path) -> Result<Kiln, Trouble> {
    Kiln::read(&piece::text_of(path, "kiln", MOST_BYTES)?).map_err(|notice| {
        let trouble = Trouble::from(notice);
        Trouble { what: format!("{}: {}", path.display(), trouble.what), ..trouble }
    })
}

fn in_lines(firings: &Firings) -> String {
    let mut lines = vec![format!("In {}", of_the_kiln(firings))];
    for (at, program) in firings.programs.iter().enumerate() {
        lines.push(String::new());
        lines.push(head(program, firings.costs.as_ref().map(|costs| costs[at])));
        lines.push(format!("  {:<12} {:>10} {:>9} {:>9} {:>8}", "", "°C/h", "to °C", "hold min", "takes h"));
        lines.extend(
            program.segments.iter().zip(&program.runs).map(|(segment, run)| row(program, segment, run)),
        );
        lines.push("  Why".into());
        lines.extend(program.segments.iter().map(|segment| why(program, segment)));
    }
    lines.push(String::new());
    lines.extend(becomes(firings));
    lines.push(String::new());
    lines.push(MAKERS_WIN.into());
    lines.extend(CAUTIONS.iter().map(|caution| format!("- {caution}")));
    lines.join("\n") + "\n"
}

fn of_the_kiln(firings: &Firings) -> String {
    let name = match firings.kiln.as_str() {
        "" => "your kiln".into(),
        guessed if firings.guess => lower(guessed),
        named => named.to_owned(),
    };
    let energy = if firings.metered { "energies to your meter" } else { "energies reckoned, not metered" };
    format!("{name}; {energy}")
}

fn head(program: &Program, cost: Option<f64>) -> String {
    let cost = cost.map_or_else(String::new, |cost| format!(", {}", fixed(cost, 2)));
    let opened = program.segments.last().map_or(0.0, |off| off.to.value.0);
    let from = program.hours + 18.0;
    let minutes = ((from.fract() * 60.0).floor(), from.floor());
    format!(
        "{}, for {} mm: {} h until {} °C{}, {} kWh{cost}",
        capital(program.firing.name()),
        fixed(program.thick.0, 1),
        fixed(program.hours, 1),
        plain(opened),
        clock(minutes),
        fixed(program.kwh, 1)
    )
}

/// Started at six in the evening, on the clock.
fn clock((minutes, hours): (f64, f64)) -> String {
    let days = match (hours / 24.0).floor() {
        0.0 => String::new(),
        1.0 => " the next day".into(),
        days => format!(" {days} days later"),
    };
    format!(" (started at 18:00, opened at {:02}:{:02}{days})", (hours % 24.0) as u32, minutes as u32)
}

fn row(program: &Program, segment: &Segment, run: &Run) -> String {
    let pace = match segment.pace.value {
        _ if segment.name == SegmentName::Anneal => "there".into(),
        Pace::PerHour(rate) => plain(rate),
        Pace::AsItGoes => if segment.to.value > run.from { "full" } else { "lid shut" }.into(),
    };
    let late = match () {
        () if run.follows => "",
        () if segment.to.value > run.from => "  late",
        () => "  by itself",
    };
    format!(
        "  {:<12} {:>10} {:>9} {:>9} {:>8}{late}",
        segment.name.name(program.firing),
        marked(&segment.pace, pace),
        marked(&segment.to, plain(segment.to.value.0)),
        marked(&segment.hold, plain(segment.hold.value.0)),
        fixed(run.takes, 2)
    )
}

/// A number with its mark: common practice, or set by the maker.
fn marked<T>(choice: &Choice<T>, text: String) -> String {
    let mark = match choice.source {
        _ if choice.yours => "!",
        Source::Practice => "*",
        _ => "",
    };
    text + mark
}

fn why(program: &Program, segment: &Segment) -> String {
    let name = segment.name.name(program.firing);
    let mut said = vec![segment.pace.why.as_str(), &segment.to.why];
    if segment.hold.value.0 > 0.0 {
        said.push(&segment.hold.why);
    }
    said.dedup();
    let yours = segment.pace.yours || segment.to.yours || segment.hold.yours;
    format!("  {name}: {}{}", said.join(" "), if yours { " ! is set by you." } else { "" })
}

/// What becomes of the glass.
fn becomes(firings: &Firings) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(spread) = firings.spread {
        let does = match spread.tendency {
            Tendency::DrawsIn => "draws in to",
            Tendency::Holds => "holds its size:",
            Tendency::Spreads => "spreads to",
        };
        let (a, b) = (spread.slips.0.min(spread.sticks.0), spread.slips.0.max(spread.sticks.0));
        lines.push(format!(
            "The stack {does} {} mm ({} to {}, as it slides or sticks), its sheets {} mm thick",
            fixed(spread.across.0, 0),
            fixed(a, 0),
            fixed(b, 0),
            fixed(spread.thick.0, 1)
        ));
    }
    if let Some(edge) = &firings.edge {
        lines.push(format!("Its edge is rounded to {} mm", fixed(edge.radius.0, 1)));
    }
    lines.extend(firings.tacked.iter().map(|tacked| {
        let look = match tacked.look {
            Look::Sharp => "sharp",
            Look::Rounded => "rounded",
            Look::Flat => "melted flat",
        };
        let neck =
            tacked.neck.map_or_else(String::new, |neck| format!(", its neck {} mm wide", fixed(neck.0, 1)));
        format!("An accent of {}: {look}, its edges {} mm{neck}", tacked.size, fixed(tacked.edge.0, 2))
    }));
    lines
}
