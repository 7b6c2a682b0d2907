//! The ticket: what to weigh, cut and measure, for the eye or as JSON.

use super::arguments::Ticket;
use super::joint_lines::joint;
use super::outcome::{Outcome, print};
use super::piece::{self, Piece};
use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::base::units::{Grams, fixed};
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::shop::cover::Base;
use dappledome::shop::ticket;

/// Prints it.
pub fn run(arguments: &Ticket) -> Outcome {
    let piece = piece::read(&arguments.of)?;
    let kiln = Kiln::guess(Guess::SmallBrick);
    let (mut preview, mut unlimited) = (Preview::new(), Allowance::unlimited());
    let ticket = ticket::ticket(&mut preview, &piece.plan, Seed(arguments.seed), &kiln, &mut unlimited)
        .expect("an unlimited allowance never pauses");
    if !arguments.json {
        return print(&in_lines(&ticket, &piece));
    }
    let json = serde_json::to_string_pretty(&ticket).expect("a ticket has only strings and numbers");
    print(&(json + "\n"))
}

fn in_lines(ticket: &ticket::Ticket, piece: &Piece) -> String {
    let (plan, name) = (&piece.plan, |id: &str| piece.glasses.name(id));
    let mut lines = vec![format!("For {}", pieces(ticket))];
    lines.push("Powder to have ready, for one piece and for all".into());
    lines.extend(ticket.powders.iter().map(|powder| {
        format!("  {:<12} {}, {}", name(&powder.glass), grams(powder.one), grams(powder.ready))
    }));
    lines.push("Powder on one disc, sifted and left by the sponge".into());
    lines.extend(plan.coats.iter().zip(&ticket.coats).map(|(coat, weighed)| {
        let names: Vec<_> = coat.blend.shares.iter().map(|(glass, _)| &*glass.name).collect();
        let (sifted, left) = (grams(weighed.sifted), grams(weighed.left));
        format!("  {:<12} {sifted}, {left}{}", names.join(" and "), bases(plan, weighed))
    }));
    lines.push(format!("  in all       {}, {}", grams(ticket.sifted), grams(left(ticket))));
    if ticket.rolls > 0 {
        lines.push(format!("  the sponge   {}", counted(ticket.rolls, "roll")));
    }
    lines.push("Discs to cut, for one piece and for all".into());
    let discs = ticket.discs.iter();
    lines.extend(discs.map(|cut| {
        let (glass, thick, across) = (name(&cut.glass), cut.thickness, cut.diameter);
        format!("  {glass:<12} {}, {} × {thick} thick, {across} across", cut.each, cut.count)
    }));
    if !ticket.accents.is_empty() {
        lines.push("Accents on one piece".into());
        lines.extend(
            ticket.accents.iter().map(|accent| format!("  {:<12} {}", name(&accent.glass), accent.count)),
        );
    }
    lines.push("Sizes".into());
    let (least, most) = ticket.fused_range;
    lines.push(format!(
        "  fused flat   {} across ({} to {}), {} thick",
        ticket.fused_across,
        fixed(least.0, 0),
        fixed(most.0, 0),
        ticket.fused_thickness
    ));
    lines.push(format!("  the dome     {} across, {} high, outside", ticket.dome_across, ticket.dome_high));
    if let Some(needs) = &ticket.stem {
        lines.push("Stem and joint".into());
        lines.extend(joint(needs).into_iter().map(|line| format!("  {line}")));
    }
    lines.push(format!(
        "Firings{}",
        if ticket.kiln_guessed { ", in a small brick kiln that is a guess" } else { "" }
    ));
    lines.extend(ticket.firings.iter().map(|takes| {
        format!("  {:<12} {} h, {} kWh", takes.firing.name(), fixed(takes.hours, 1), fixed(takes.kwh, 1))
    }));
    lines.join("\n") + "\n"
}

/// How many pieces, and how many of them are spare.
fn pieces(ticket: &ticket::Ticket) -> String {
    let all = counted(ticket.pieces, "piece");
    if ticket.spares > 0 { format!("{all}, {} of them spare", ticket.spares) } else { all }
}

/// What a coat lies on, with the grams on each; parts that no scale at the bench shows are left out.
fn bases(plan: &Plan, coat: &ticket::CoatGrams) -> String {
    let named = |base: Base| match base {
        Base::Sheet => plan.sheets.last().map_or("the sheet", |sheet| &sheet.glass.name),
        Base::Coat(id) => plan
            .coat(id)
            .and_then(|coat| coat.blend.shares.first())
            .map_or("a coat", |(glass, _)| &glass.name),
    };
    let parts = coat.lies_on.iter().filter(|on| on.grams.0 >= 0.05);
    let said: Vec<_> = parts.map(|on| format!("{} on {}", grams(on.grams), named(on.base))).collect();
    if said.is_empty() { String::new() } else { format!(" ({})", said.join(", ").to_lowercase()) }
}

/// Powder on one disc after the sponge.
fn left(ticket: &ticket::Ticket) -> Grams {
    Grams(ticket.coats.iter().map(|coat| coat.left.0).sum())
}

/// A mass as scales at the bench show it.
fn grams(mass: Grams) -> String {
    format!("{} g", fixed(mass.0, 1))
}

fn counted(count: u32, thing: &str) -> String {
    format!("{count} {thing}{}", if count == 1 { "" } else { "s" })
}
