//! What the customer looks at.

use crate::state::announcer::Announcer;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::piece::letter;
use leptos::prelude::*;

/// What the customer looks at.
#[derive(Clone, Copy)]
pub struct Showing {
    /// The options.
    pub kept: Memo<Vec<Seed>>,
    /// Which of them is large.
    pub at: RwSignal<usize>,
    /// Whether it is lit from within.
    pub lit: RwSignal<bool>,
    piece: Workpiece,
}

impl Showing {
    /// The chosen option by day, or else the first.
    pub fn new(piece: Workpiece) -> Self {
        let kept = Memo::new(move |_| piece.sisters.read().kept.clone());
        let chosen = piece.sisters.with_untracked(|sisters| sisters.chosen);
        let at = kept.with_untracked(|kept| kept.iter().position(|seed| Some(*seed) == chosen));
        Self { kept, at: RwSignal::new(at.unwrap_or(0)), lit: RwSignal::new(false), piece }
    }

    /// The seed of the large one.
    pub fn seed(&self) -> Option<Seed> {
        self.kept.read().get(self.at.get()).copied()
    }

    /// The letter of the large one.
    pub fn letter(&self) -> String {
        letter(self.at.get())
    }

    /// The light of the large one.
    pub fn light(&self) -> Light {
        if self.lit.get() { Light::Within } else { Light::Day }
    }

    /// Whether the large one is the customer's choice.
    pub fn chosen(&self) -> bool {
        let seed = self.seed();
        seed.is_some() && self.piece.sisters.read().chosen == seed
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

    /// Chooses the large one.
    pub fn choose(&self, announcer: Announcer) {
        if let Some(seed) = untrack(|| self.seed()) {
            let letter = untrack(|| self.letter());
            self.piece.decide(&words::choice(&letter), |sisters| sisters.chosen = Some(seed));
            announcer.say(words::you_chose(&letter));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::nav::Nav;

    fn showing(chosen: Option<Seed>) -> Showing {
        let piece = Workpiece::new(Nav::new());
        piece.sisters.update(|sisters| {
            sisters.kept = vec![Seed(5), Seed(7), Seed(9)];
            sisters.chosen = chosen;
        });
        Showing::new(piece)
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
    fn going_stops_at_the_ends() {
        Owner::new().with(|| {
            let showing = showing(None);
            showing.go(-1);
            assert_eq!(showing.seed(), Some(Seed(5)));
            (0..9).for_each(|_| showing.go(1));
            assert_eq!((showing.seed(), showing.chosen()), (Some(Seed(9)), false));
        });
    }
}
