//! What the customer looks at, and chooses.

use crate::state::announcer::Announcer;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;
use dappledome::recipe::sisters::{MOST_PIECES, Sisters, letter};
use leptos::prelude::*;
use std::sync::Arc;

/// What the customer looks at.
#[derive(Clone, Copy)]
pub struct Showing {
    /// The options.
    pub kept: Memo<Vec<Seed>>,
    /// Which of them is large.
    pub at: RwSignal<usize>,
    /// Whether it is lit from within.
    pub lit: RwSignal<bool>,
    /// Whether what was typed last is no number of pieces.
    refused: RwSignal<bool>,
    piece: Workpiece,
    announcer: Announcer,
}

impl Showing {
    /// The first chosen option by day, or else the first.
    pub fn new(piece: Workpiece, announcer: Announcer) -> Self {
        let kept = Memo::new(move |_| piece.sisters.read().kept_seeds());
        let chosen = piece.sisters.with_untracked(|sisters| sisters.chosen.first().copied());
        let at = kept.with_untracked(|kept| kept.iter().position(|seed| Some(*seed) == chosen));
        Self {
            kept,
            at: RwSignal::new(at.unwrap_or(0)),
            lit: RwSignal::new(false),
            refused: RwSignal::new(false),
            piece,
            announcer,
        }
    }

    /// The seed of the large one.
    pub fn seed(&self) -> Option<Seed> {
        self.kept.read().get(self.place()).copied()
    }

    /// The place of the large one among the options; the list may have become shorter.
    fn place(&self) -> usize {
        self.at.get().min(self.kept.read().len().saturating_sub(1))
    }

    /// The recipe of the large one, as it was kept.
    pub fn recipe(&self) -> Option<Arc<Recipe>> {
        self.piece.option(self.seed()?)
    }

    /// The letter of the large one.
    pub fn letter(&self) -> String {
        letter(self.place())
    }

    /// The present light.
    pub fn light(&self) -> Light {
        if self.lit.get() { Light::Within } else { Light::Day }
    }

    /// Whether the large one is among what the customer chose.
    pub fn chosen(&self) -> bool {
        self.seed().is_some_and(|seed| self.has_chosen(seed))
    }

    /// Whether an option is among what the customer chose.
    pub fn has_chosen(&self, seed: Seed) -> bool {
        self.piece.sisters.read().chosen.contains(&seed)
    }

    /// How many options are chosen.
    pub fn count(&self) -> usize {
        self.piece.sisters.read().chosen.len()
    }

    /// How many pieces the customer wants in all: unless it was said, as many as the ticket is for.
    pub fn pieces(&self) -> u32 {
        self.piece.sisters.read().pieces(self.piece.recipe.read().batch.pieces)
    }

    /// The letters of what is chosen.
    pub fn letters(&self) -> Vec<String> {
        self.piece.sisters.read().chosen_letters()
    }

    /// What was chosen, in words; nothing before there is a choice.
    pub fn said(&self) -> String {
        let sisters = self.piece.sisters.read();
        words::you_chose(&sisters.chosen_letters(), sisters.how_many)
    }

    /// The same, or why a number was refused.
    pub fn said_or_refused(&self) -> String {
        if self.refused.get() { words::number_of_pieces(MOST_PIECES) } else { self.said() }
    }

    /// What was typed is no number of pieces.
    pub fn refuse_number(&self) {
        self.refused.set(true);
        self.announcer.say(words::number_of_pieces(MOST_PIECES));
    }

    /// Shows the next option large, or the one before.
    pub fn go(&self, by: isize) {
        let last = self.kept.with_untracked(Vec::len).saturating_sub(1);
        self.at.update(|at| *at = at.saturating_add_signed(by).min(last));
    }

    /// Lights the glass, or puts it out.
    pub fn toggle_light(&self) {
        self.lit.update(|lit| *lit = !*lit);
    }

    /// Chooses the large one in place of what was chosen.
    pub fn choose(&self) {
        self.decide(Sisters::choose);
    }

    /// Chooses the large one as well.
    pub fn choose_too(&self) {
        self.decide(Sisters::choose_too);
    }

    /// Lets go of the large one.
    pub fn unchoose(&self) {
        self.decide(Sisters::unchoose);
    }

    /// Chooses every option.
    pub fn choose_all(&self) {
        self.decide(|sisters, _| sisters.choose_all());
    }

    /// Wants so many pieces.
    pub fn want(&self, pieces: u32) {
        self.refused.set(false);
        self.piece.decide(words::HOW_MANY_STEP, |sisters| sisters.want(pieces));
        self.announcer.say(untrack(|| self.said()));
    }

    fn decide(&self, change: impl FnOnce(&mut Sisters, Seed)) {
        let Some(seed) = untrack(|| self.seed()) else { return };
        self.refused.set(false);
        let mut sisters = self.piece.sisters.get_untracked();
        change(&mut sisters, seed);
        self.piece.decide(&words::choice(&sisters.chosen_letters()), |now| *now = sisters);
        self.announcer.say(untrack(|| self.said()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::nav::Nav;

    fn showing(chosen: Option<Seed>) -> Showing {
        let piece = Workpiece::new(Nav::new());
        piece.sisters.update(|sisters| {
            [5, 7, 9].into_iter().for_each(|seed| sisters.keep(Seed(seed), Arc::new(Recipe::bare())));
            chosen.into_iter().for_each(|seed| sisters.choose(seed));
        });
        Showing::new(piece, Announcer::new())
    }

    #[test]
    fn the_choice_lies_large_or_else_the_first() {
        Owner::new().with(|| {
            assert_eq!(showing(None).seed(), Some(Seed(5)));
            let showing = showing(Some(Seed(7)));
            assert_eq!(
                (showing.seed(), showing.letter(), showing.chosen()),
                (Some(Seed(7)), "B".into(), true)
            );
        });
    }

    #[test]
    fn going_stops_at_the_ends_and_chooses_nothing() {
        Owner::new().with(|| {
            let showing = showing(None);
            showing.go(-1);
            assert_eq!(showing.seed(), Some(Seed(5)));
            (0..9).for_each(|_| showing.go(1));
            assert_eq!((showing.seed(), showing.count()), (Some(Seed(9)), 0));
        });
    }

    #[test]
    fn what_was_chosen_is_said() {
        Owner::new().with(|| {
            let showing = showing(Some(Seed(7)));
            showing.piece.sisters.update(|sisters| sisters.choose_too(Seed(9)));
            assert_eq!((showing.said(), showing.pieces()), ("You chose B and C".into(), 2));
            showing.piece.sisters.update(|sisters| sisters.want(12));
            assert_eq!(showing.said(), "You chose B and C, 12 pieces in all");
        });
    }
}
