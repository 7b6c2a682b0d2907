//! The margin: what is weighed, cut and set at a step, for the whole batch.

use crate::words;
use dappledome::base::notice::Step;
use dappledome::shop::ticket::Ticket;

/// What stands in the margin beside a step.
pub fn margin(step: Step, ticket: &Ticket) -> String {
    match step {
        Step::Blank => words::discs_of(ticket.discs.iter().map(|disc| disc.count).sum()),
        Step::Coat(id) => coat_to_weigh(ticket, id).map_or_else(String::new, words::grams),
        Step::Sponge => words::off(ticket.lifted.0 * f64::from(ticket.pieces)),
        Step::Accents => {
            let each: u32 = ticket.accents.iter().map(|accent| accent.count).sum();
            words::pieces_of(each * ticket.pieces)
        }
        Step::Stem => ticket
            .stem
            .map_or_else(String::new, |needs| words::milliliters(needs.silicone * f64::from(ticket.pieces))),
        Step::Fuse | Step::Slump | Step::Ticket | Step::Recipe => String::new(),
    }
}

/// Grams to weigh out for a coat: its share of all the powder that has to be ready.
fn coat_to_weigh(ticket: &Ticket, id: u32) -> Option<f64> {
    let coat = ticket.coats.iter().find(|coat| coat.id == id)?;
    Some(coat.to_weigh.0 * f64::from(ticket.pieces))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::{Grams, Mm};
    use dappledome::shop::ticket::{AccentCount, CoatGrams, DiscCut, PowderGrams};

    fn ticket() -> Ticket {
        let coat = |id, to_weigh| CoatGrams {
            id,
            to_weigh: Grams(to_weigh),
            lies_on: Vec::new(),
            sifted: Grams(0.75 * to_weigh),
            left: Grams(0.75 * to_weigh),
        };
        let powder = |one| PowderGrams { glass: "straw".into(), one: Grams(one), ready: Grams(3.0 * one) };
        let disc = |glass: &str| DiscCut {
            glass: glass.into(),
            thickness: Mm(3.0),
            diameter: Mm(160.0),
            each: 1,
            count: 3,
        };
        let accent = |count| AccentCount { glass: "rust".into(), count };
        Ticket {
            pieces: 3,
            spares: 0,
            coats: vec![coat(1, 4.0), coat(2, 1.5), coat(3, 0.0)],
            powders: vec![powder(4.0), powder(1.5)],
            sifted: Grams(4.125),
            lifted: Grams(0.2),
            rolls: 40,
            discs: vec![disc("clear"), disc("white")],
            accents: vec![accent(5), accent(3)],
            fused_across: Mm(160.0),
            fused_range: (Mm(158.0), Mm(160.0)),
            fused_thickness: Mm(6.0),
            dome_across: Mm(150.0),
            dome_high: Mm(40.0),
            firings: Vec::new(),
            kiln_guessed: true,
            stem: None,
        }
    }

    #[test]
    fn each_coat_has_its_share_of_the_powder_to_weigh() {
        let beside = |id| margin(Step::Coat(id), &ticket());
        assert_eq!([1, 2, 3].map(beside), ["12.0 g", "4.5 g", "0.00 g"]);
        assert_eq!(beside(9), "", "no such coat");
    }

    #[test]
    fn everything_is_counted_for_the_whole_batch() {
        let beside = |step| margin(step, &ticket());
        assert_eq!(beside(Step::Blank), "6 discs");
        assert_eq!(beside(Step::Sponge), "0.60 g off");
        assert_eq!(beside(Step::Accents), "24 pieces");
        assert_eq!([Step::Fuse, Step::Slump, Step::Ticket, Step::Recipe].map(beside), [""; 4]);
    }
}
