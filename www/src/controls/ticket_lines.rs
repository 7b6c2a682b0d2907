//! The lines of the ticket, as plain data.

use crate::words;
use dappledome::recipe::Recipe;
use dappledome::shop::ticket::Ticket;

/// A line of the ticket.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum TicketLine {
    /// Above lines of one kind.
    Head(&'static str),
    /// A number, for one piece and for all.
    Number {
        /// What is weighed, cut or set.
        what: String,
        /// What it lies on, or how large it is.
        detail: String,
        /// For one piece.
        one: String,
        /// For all pieces.
        all: String,
    },
}

/// The lines of a ticket and of the recipe that it was made of.
pub fn lines(ticket: &Ticket, recipe: &Recipe) -> Vec<TicketLine> {
    let mut lines = powder(ticket, recipe);
    let discs = ticket.discs.iter().map(|cut| {
        let detail = words::cut_across(cut);
        number(
            words::disc_of(&recipe.glasses, cut),
            detail,
            words::number(cut.each),
            words::number(cut.count),
        )
    });
    add(&mut lines, words::DISCS_TO_CUT, discs.collect());
    let accents = ticket.accents.iter().map(|accent| {
        let all = accent.count.saturating_mul(ticket.pieces);
        number(
            recipe.glasses.name(&accent.glass),
            String::new(),
            words::number(accent.count),
            words::number(all),
        )
    });
    add(&mut lines, words::ACCENTS_TO_SET, accents.collect());
    add(&mut lines, words::STEM_AND_JOINT, stem(ticket));
    let firings = ticket.each_firing().map(|(firing, takes)| {
        let (hours, energy) = takes.map_or_else(
            || (String::new(), words::NOT_IN_THIS_KILN.into()),
            |takes| (words::hours_long(takes.hours), words::energy(takes.kwh, None)),
        );
        number(words::firing(firing), hours, energy, String::new())
    });
    add(&mut lines, words::FIRINGS_FOR_ONE, firings.collect());
    lines
}

/// Pipe to cut, stopper and silicone.
fn stem(ticket: &Ticket) -> Vec<TicketLine> {
    let Some(needs) = &ticket.stem else { return Vec::new() };
    let all = f64::from(ticket.pieces);
    vec![
        number(
            words::pipe_to_cut(needs),
            format!("{} each", needs.cut),
            words::number(1),
            words::number(ticket.pieces),
        ),
        number(
            words::stopper_to_have(needs),
            words::goes_in(needs),
            words::number(1),
            words::number(ticket.pieces),
        ),
        number(
            words::SILICONE.into(),
            String::new(),
            words::milliliters(needs.silicone),
            words::milliliters(needs.silicone * all),
        ),
    ]
}

/// Powder coat by coat; glass by glass as well, where that is not the same.
fn powder(ticket: &Ticket, recipe: &Recipe) -> Vec<TicketLine> {
    let mut lines = Vec::new();
    let weighed = |what: String, detail: String, one: f64| {
        number(what, detail, words::grams(one), words::grams(one * f64::from(ticket.pieces)))
    };
    let coats = ticket.coats.iter().map(|coat| {
        let detail = words::lies_on(coat, recipe);
        weighed(words::powder_of(recipe, coat.id), detail, coat.to_weigh.0)
    });
    let mut coats: Vec<TicketLine> = coats.collect();
    if coats.len() > 1 {
        coats.push(weighed(words::ALL_POWDER.into(), String::new(), ticket.powder_for_one().0));
    }
    add(&mut lines, words::TO_WEIGH, coats);
    let blended = recipe.coats.iter().any(|coat| coat.powder.len() > 1);
    if blended || ticket.powders.len() < ticket.coats.len() {
        let glasses = ticket.powders.iter();
        let glasses = glasses
            .map(|powder| weighed(recipe.glasses.name(&powder.glass), String::new(), powder.one.0))
            .collect();
        add(&mut lines, words::BY_GLASS, glasses);
    }
    lines
}

fn number(what: String, detail: String, one: String, all: String) -> TicketLine {
    TicketLine::Number { what, detail, one, all }
}

/// Adds lines under their head, if there are any.
fn add(lines: &mut Vec<TicketLine>, head: &'static str, more: Vec<TicketLine>) {
    if !more.is_empty() {
        lines.push(TicketLine::Head(head));
        lines.extend(more);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::memo::Allowance;
    use dappledome::base::seed::Seed;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::preview::Preview;
    use dappledome::recipe::plan::Plan;
    use dappledome::recipe::{Accents, Batch, Part, Stem, demo};
    use dappledome::shop::ticket::ticket;

    fn said(recipe: &Recipe) -> Vec<String> {
        let plan = Plan::new(recipe).unwrap().plan;
        let ticket = ticket(
            &mut Preview::new(),
            &plan,
            Seed(41),
            &Kiln::guess(Guess::SmallBrick),
            &mut Allowance::unlimited(),
        )
        .unwrap();
        let lines = lines(&ticket, recipe).into_iter();
        lines
            .map(|line| match line {
                TicketLine::Head(head) => head.to_owned(),
                TicketLine::Number { what, detail, one, all } => format!("{what} {detail} | {one} | {all}"),
            })
            .collect()
    }

    #[test]
    fn one_and_all_stand_side_by_side_and_discs_by_glass() {
        let mut recipe = demo::ember_walk();
        recipe.batch = Batch { pieces: 12, spare_per_ten: 1 };
        recipe.accents = Some(Accents::default());
        recipe.stem = Some(Stem::default());
        let said = said(&recipe);
        assert_eq!(said[0], words::TO_WEIGH);
        assert!(said[1].starts_with("Straw on white | "), "{said:#?}");
        assert!(said[2].contains(" on straw"), "{said:#?}");
        for line in [
            "Clear 3 mm 160 mm across | 1 | 14",
            "White 3 mm 160 mm across | 1 | 14",
            "Chalk  | 26 | 364",
            "¾ in pipe 1300 mm each | 1 | 14",
            "Stopper No. 3, holed 10 mm in | 1 | 14",
        ] {
            assert!(said.iter().any(|said| said == line), "{line} is not among {said:#?}");
        }
        assert!(!said.iter().any(|line| line == words::BY_GLASS), "each coat is a glass of its own");
    }

    #[test]
    fn a_blend_is_weighed_by_glass_too() {
        let mut recipe = demo::ember_walk();
        recipe.coats[1].powder.push(Part { glass: "straw".into(), parts: 1.0 });
        let said = said(&recipe);
        let by_glass = said.iter().position(|line| line == words::BY_GLASS).unwrap();
        assert!(said[by_glass + 1].starts_with("Straw  | "), "{said:#?}");
    }

    #[test]
    fn a_bare_blank_has_only_its_discs() {
        assert_eq!(said(&Recipe::bare())[0], words::DISCS_TO_CUT);
    }
}
