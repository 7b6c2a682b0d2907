//! The recipe and its numbers in a maker's words.

use super::text::lower;
use dappledome::base::notice::Step;
use dappledome::base::shown::Units;
use dappledome::base::units::{Mm, fixed, plain};
use dappledome::picture::Stage;
use dappledome::recipe::said::passes;
use dappledome::recipe::{Coat, Fall, Recipe, Sponge};
use dappledome::shop::ticket::Ticket;

pub use dappledome::recipe::said::{blend, coat, form, side};

/// The name of a coat's powder; nothing if the recipe has no such coat.
pub fn powder_of(recipe: &Recipe, id: u32) -> String {
    recipe.coat(id).map_or_else(String::new, |coat| blend(&recipe.glasses, &coat.powder))
}

/// The name of a fall.
pub fn fall(fall: &Fall) -> &'static str {
    match fall {
        Fall::Even { .. } => "Even",
        Fall::Patches(_) => "Patches",
        Fall::ThickAndThin(_) => "Thick and thin",
    }
}

/// A coat with its powder, in one line.
pub fn coat_line(recipe: &Recipe, one: &Coat) -> String {
    format!("{}: {}", blend(&recipe.glasses, &one.powder), coat(one))
}

/// The blank in one line: `160 mm, white on clear`.
pub fn blank(recipe: &Recipe) -> String {
    let sheets = recipe.blank.sheets.iter().rev();
    let names: Vec<String> = sheets.map(|sheet| lower(&recipe.glasses.name(&sheet.glass))).collect();
    format!("{}, {}", recipe.blank.diameter, names.join(" on "))
}

/// The sponge in one line, with the word for how damp it is.
pub fn sponge(damp: &str, sponge: &Sponge, rolls: Option<u32>) -> String {
    let passes = passes(sponge);
    rolls.map_or_else(|| format!("{damp}, {passes}"), |rolls| format!("{damp}, {rolls} rolls, {passes}"))
}

/// The slump in one line. Its two lengths go without their unit, so they come in the shown one.
pub fn slump(recipe: &Recipe, units: Units) -> String {
    let mold = &recipe.mold;
    let number = |length: Mm| units.length_number(units.length(length.0));
    format!(
        "{} {} × {}, powder {}",
        lower(form(&mold.form)),
        number(mold.opening),
        number(mold.depth),
        lower(side(recipe.powder_side))
    )
}

/// The full fuse in one line.
pub fn fuse(recipe: &Recipe) -> String {
    format!("{} for {}", recipe.fuse.top, recipe.fuse.hold)
}

/// The accents in one line.
pub fn accents(recipe: &Recipe) -> String {
    let Some(accents) = &recipe.accents else { return String::new() };
    let blend = lower(&blend(&recipe.glasses, &accents.glasses));
    format!("{blend}, {} to {}", plain(accents.grade_from.0), accents.grade_to)
}

/// A sheet by its place in the stack.
pub fn sheet_place(at: usize, of: usize) -> &'static str {
    match at {
        _ if of == 1 => "The sheet",
        0 => "Bottom sheet",
        at if at + 1 == of => "Top sheet",
        1 => "Second sheet",
        _ => "Third sheet",
    }
}

/// The name of a step in a remark.
pub fn step(step: Step) -> &'static str {
    match step {
        Step::Recipe | Step::Ticket => "Ticket",
        Step::Blank => "Blank",
        Step::Coat(_) => "Coat",
        Step::Sponge => "Sponge",
        Step::Fuse => "Full fuse",
        Step::Accents => "Accents",
        Step::Slump => "Slump",
        Step::Stem => "Stem",
    }
}

/// What a coat weighs where: shown in the open coat. What to weigh out stands in the margin.
pub fn coat_weights(sifted: f64, left: f64) -> String {
    let sponged =
        if left < sifted - 0.005 { format!(", {} after the sponge", grams(left)) } else { String::new() };
    format!("{} on the glass{sponged}", grams(sifted))
}

/// The dimension line.
pub fn dimensions(stage: Stage, ticket: &Ticket, units: Units) -> String {
    let across = |length: Mm| units.say_length(length.0, 0);
    let fine = |length: Mm| units.say_length(length.0, 1);
    match stage {
        Stage::Sifted | Stage::Fused => {
            format!("{} across, {} thick", across(ticket.fused_across), fine(ticket.fused_thickness))
        }
        Stage::Domed => dome_size(ticket.dome_across, ticket.dome_high, units),
    }
}

/// The size of a finished dome.
pub fn dome_size(across: Mm, high: Mm, units: Units) -> String {
    format!("{} across, {} high", units.say_length(across.0, 0), units.say_length(high.0, 1))
}

/// The finished size at the foot.
pub fn finished(ticket: &Ticket, units: Units) -> String {
    format!("{} × {}", units.rounded_length(ticket.dome_across.0, 0), units.say_length(ticket.dome_high.0, 1))
}

/// The discs at the foot.
pub fn discs(ticket: &Ticket, units: Units) -> String {
    let discs = ticket.discs.iter().map(|disc| disc.count).sum();
    format!("{}, {}", discs_of(discs), units.say_length(ticket.fused_thickness.0, 1))
}

/// How many pieces the ticket is for, spares included.
pub fn pieces(recipe: &Recipe) -> String {
    let (asked, made) = (recipe.batch.pieces, recipe.batch.to_make());
    let words = pieces_of(asked);
    if made > asked { format!("{words} + {} spare", made - asked) } else { words }
}

/// Grams with one decimal, or two below a gram.
pub fn grams(grams: f64) -> String {
    format!("{} g", fixed(grams, if grams < 0.995 { 2 } else { 1 }))
}

/// What the sponge takes off.
pub fn off(grams: f64) -> String {
    format!("{} off", self::grams(grams))
}

/// A number of discs.
pub fn discs_of(n: u32) -> String {
    count(n, "disc", "discs")
}

/// A number of pieces.
pub fn pieces_of(n: u32) -> String {
    count(n, "piece", "pieces")
}

fn count(n: u32, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// The sponge is not wetted again.
pub const NEVER: &str = "never";
/// Patches fall anywhere.
pub const ANYWHERE: &str = "anywhere";

/// So many rolls of the sponge.
pub fn rolls(n: u32) -> String {
    count(n, "roll", "rolls")
}

/// A pull of patches.
pub fn to_crown(percent: &str) -> String {
    format!("{percent} % to the crown")
}

/// A pull of patches.
pub fn to_rim(percent: &str) -> String {
    format!("{percent} % to the rim")
}

/// A width.
pub fn across(length: &str) -> String {
    format!("{length} across")
}

/// A range.
pub fn from_to(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// Minutes, in hours from one on.
pub fn minutes(minutes: f64) -> String {
    if minutes < 60.0 {
        return format!("{} min", plain(minutes));
    }
    let whole = (minutes / 60.0) as u32;
    hours(whole, minutes - f64::from(whole) * 60.0)
}

/// An hour or more.
pub fn hours(hours: u32, minutes: f64) -> String {
    format!("{hours} h {minutes:02.0}")
}
