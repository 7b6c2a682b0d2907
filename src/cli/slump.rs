//! The slump of one piece: how the disc sinks into its mold, as a table or as a drawing.

use super::arguments::Slump;
use super::outcome::{Outcome, print};
use super::output::Output;
use super::piece;
use super::section;
use dappledome::base::units::{Mm, fixed};
use dappledome::kiln::bench::Bench;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::kiln::fused::{dome_inputs, fused};
use dappledome::kiln::sinking::Times;
use dappledome::serve::say::say;
use dappledome::serve::trouble::Trouble;
use dappledome::slump::trajectory::{self, Trajectory};
use std::path::Path;

/// What is said with every slump.
const UNPROVED: &str = "Note: the slump is computed for glass that is equally hot all over, as a sheet that stays round. The model agrees with \
     known solutions; no measured slump has been held against it. Try a new mold or glass on a piece you can spare.";

/// What the slump is written as.
#[derive(Clone, Copy)]
enum Kind {
    Table,
    Drawing,
}

/// Follows it and writes it.
pub fn run(arguments: &Slump) -> Outcome {
    let kind = kind(&arguments.out)?;
    let piece = piece::read(&arguments.of)?;
    let output = Output::prepare(&arguments.out, &arguments.of.recipe)?;
    let kiln = Kiln::guess(Guess::SmallBrick);
    let bench = Bench::of(&kiln);
    let plan = &piece.plan;
    let inputs = dome_inputs(plan, &fused(plan, bench).map_err(Trouble::from)?).sheet(arguments.friction);
    let way = Trajectory::new(&inputs).map_err(|fault| Trouble::from(fault.notice()))?;
    let times = Times::new(plan, bench, plan.slump.top, Mm(inputs.radius)).map_err(Trouble::from)?;
    let text = match kind {
        Kind::Table => table(&way, &times),
        Kind::Drawing => section::draw(&way),
    };
    output.write(text.as_bytes())?;
    way.trouble().iter().filter(|notice| !piece.told.contains(notice)).for_each(piece::tell);
    say(UNPROVED);
    print(&format!("{}\n{}\n", summary(&way), arguments.out.display()))
}

/// By the end of the file's name.
fn kind(out: &Path) -> Result<Kind, Trouble> {
    match out.extension().and_then(|end| end.to_str()) {
        Some("csv") => Ok(Kind::Table),
        Some("svg") => Ok(Kind::Drawing),
        _ => Err(Trouble::new(
            format!("Cannot write {}.", out.display()),
            "Its name ends neither in .csv nor in .svg.",
            "Name a .csv for the table or a .svg for the drawing with --out.",
        )),
    }
}

/// When it is full, or how far it came.
fn summary(way: &Trajectory) -> String {
    let end = way.at(way.end());
    let depth = |tau| fixed(way.at(tau).depth(), 1);
    match (way.full_at(), way.outcome()) {
        (Some(tau), _) => format!(
            "Full at reduced time {}, {} mm deep at the middle of the glass.",
            fixed(tau, 4),
            depth(tau)
        ),
        (None, trajectory::Outcome::Jammed) => {
            format!("Jams at {} mm: the glass is too thick for this mold.", depth(way.end()))
        }
        (None, _) => format!(
            "Not full: after reduced time {} it is {} mm deep and {} mm from its mold. To fill it, take a shallower mold or a \
             rounder corner, or wash it anew.",
            fixed(way.end(), 4),
            depth(way.end()),
            fixed(end.widest_gap(), 1)
        ),
    }
}

/// One line for each moment that is kept, with the minutes since the top of the recipe's slump was reached in a small brick kiln.
fn table(way: &Trajectory, times: &Times) -> String {
    let mut lines = vec![
        "reduced_time,minutes,depth_mm,crown_height_mm,rim_radius_mm,rim_height_mm,widest_gap_mm,touching_share,crown_thickness_mm,rim_thickness_mm"
            .to_owned(),
    ];
    lines.extend(way.moments().map(|tau| {
        let moment = way.at(tau);
        let (crown, rim) = (moment.shape.nodes[0], moment.rim());
        let last = moment.shape.nodes.len() - 1;
        let lengths = [moment.depth(), crown.1, rim.0, rim.1, moment.widest_gap()];
        let lengths = lengths.map(|length| fixed(length, 3)).join(",");
        let thicknesses = [0, last].map(|ring| fixed(moment.shape.thickness(ring), 3)).join(",");
        let minutes = times.minutes_at(tau).map_or_else(String::new, |minutes| fixed(minutes, 2));
        format!("{tau:.6},{minutes},{lengths},{},{thicknesses}", fixed(moment.touching(), 3))
    }));
    lines.join("\n") + "\n"
}
