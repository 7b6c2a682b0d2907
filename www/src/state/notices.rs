//! Which notices ask for a look.

use super::fired::Fired;
use super::nav::{Nav, key_of};
use super::workpiece::Workpiece;
use dappledome::base::notice::{Notice, Severity};
use leptos::prelude::*;

/// All notices of the piece: of its recipe, and of its firings in the maker's kiln while that can be made. No other part of the page
/// foretells what a firing does: each thing is said once, and for this kiln.
pub fn all(piece: Workpiece, fired: Fired) -> Vec<Notice> {
    let mut notices = piece.plan.with(|plan| plan.notices.clone());
    if piece.plan.with(|plan| plan.works) {
        notices.extend(fired.notices());
    }
    notices
}

/// Notices that ask for a look: faults, and risks that have not been folded.
pub fn pressing(piece: Workpiece, fired: Fired, nav: Nav) -> Vec<Notice> {
    nav.folded.with(|folded| {
        let presses = |notice: &Notice| match notice.severity {
            Severity::Note => false,
            Severity::Fault => true,
            Severity::Risk => !folded.contains(&key_of(notice)),
        };
        all(piece, fired).into_iter().filter(presses).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::super::kilns::{KilnChoice, Kilns};
    use super::*;
    use dappledome::base::units::{Celsius, Minutes, Mm};
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::recipe::{Accents, Recipe, TackFuse};

    /// What is said of a recipe in a kiln, in the order in which it is said.
    fn said(kiln: &Kiln, change: impl FnOnce(&mut Recipe)) -> Vec<String> {
        Owner::new().with(|| {
            let piece = Workpiece::new(Nav::new());
            piece.kept.update(change);
            let kilns = Kilns::new(KilnChoice::Own, kiln.clone(), None);
            untrack(|| all(piece, Fired::new(piece, kilns))).into_iter().map(|notice| notice.what).collect()
        })
    }

    fn times(said: &[String], what: &str) -> usize {
        said.iter().filter(|said| *said == what).count()
    }

    /// Whatever is wrong with the stack, the accents, the slump or the kiln.
    #[test]
    fn each_thing_is_said_once() {
        let small = Kiln::guess(Guess::SmallBrick);
        let weak = Kiln { power: 0.5, ..Kiln::guess(Guess::LargeBrick) };
        let sheets = |recipe: &mut Recipe, thick: f64| {
            recipe.blank.sheets.iter_mut().for_each(|sheet| sheet.thickness = Mm(thick));
        };
        let thin = said(&small, |recipe| sheets(recipe, 2.0));
        assert_eq!(times(&thin, "Won't hold its size."), 1, "{thin:?}");
        let thinner = said(&small, |recipe| sheets(recipe, 2.5));
        assert_eq!(times(&thinner, "Draws in."), 1, "{thinner:?}");
        let sharp = said(&small, |recipe| {
            recipe.accents = Some(Accents::default());
            let coolest = TackFuse { top: Celsius(700.0), hold: Minutes(0.0) };
            recipe.accents.iter_mut().for_each(|accents| accents.tack = coolest);
        });
        assert_eq!(times(&sharp, "Too sharp."), 1, "{sharp:?}");
        assert_eq!(times(&sharp, "Accents press into the mold."), 1, "{sharp:?}");
        let cold = said(&small, |recipe| recipe.slump.top = Celsius(580.0));
        assert_eq!(times(&cold, "Too cold to sink."), 1, "{cold:?}");
        let lost = said(&weak, |_| ());
        // The full fuse and the slump are two firings.
        assert_eq!(times(&lost, "A kiln too weak for its target."), 2, "{lost:?}");
        for all in [thin, thinner, sharp, cold] {
            let mut once = all.clone();
            once.sort();
            once.dedup();
            assert_eq!(once.len(), all.len(), "{all:?}");
        }
    }
}
