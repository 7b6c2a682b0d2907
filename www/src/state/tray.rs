//! The tray: which sisters of the piece lie side by side, and what is being done with them.

use super::nav::Nav;
use super::workpiece::Workpiece;
use crate::model::ids::{AreaId, FIRST_SEED};
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use dappledome::recipe::sisters::MOST_KEPT;
use leptos::prelude::*;
use std::sync::Arc;

/// Sisters laid at a time.
const A_ROUND: usize = 12;
/// Sisters that peep in at the table's edge.
const AT_THE_EDGE: usize = 3;
/// Most sisters on the tray: more than anyone looks through.
const MOST: usize = 240;
/// Fewest sisters that a set is picked from.
const POOL: usize = 48;
/// Sisters in a picked set, until another number is chosen.
const USUAL_SET: usize = 6;

/// How two lifted sisters are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Compare {
    /// Side by side.
    Beside,
    /// One over the other, with an edge to be moved.
    Wipe,
}

/// The two sisters that can be lifted, left and right.
pub type Lifted = [Option<Seed>; 2];

/// The tray.
#[derive(Clone, Copy, Debug)]
pub struct Tray {
    /// The sister pointed at.
    pub at: RwSignal<Seed>,
    /// The sisters lifted to be compared.
    pub lifted: RwSignal<Lifted>,
    /// How they are compared.
    pub compare: RwSignal<Compare>,
    /// Where the wipe's edge is, 0 to 1.
    pub wipe: RwSignal<f64>,
    /// How many sisters a picked set has.
    pub set_size: RwSignal<usize>,
    /// What was answered to the last picking.
    pub answer: RwSignal<String>,
    /// The seeds on the tray: those laid less those put away.
    pub seeds: Memo<Vec<Seed>>,
    /// The seeds at the table's edge: those after the piece's own.
    pub edge: Memo<Vec<Seed>>,
    /// The sister on the tray that keys start from: the one pointed at or, if she is not on it, the first.
    pub reached: Memo<Option<Seed>>,
    first: RwSignal<Seed>,
    wanted: RwSignal<usize>,
    piece: Workpiece,
    nav: Nav,
}

impl Tray {
    /// A tray for a piece.
    pub fn new(piece: Workpiece, nav: Nav) -> Self {
        let (first, wanted) = (RwSignal::new(FIRST_SEED), RwSignal::new(A_ROUND));
        let laid = move |first, wanted| laid_from(first, wanted, &piece.sisters.read().put_away);
        let at = RwSignal::new(FIRST_SEED);
        let seeds = Memo::new(move |_| laid(first.get(), wanted.get()));
        Self {
            at,
            lifted: RwSignal::new([None, None]),
            compare: RwSignal::new(Compare::Beside),
            wipe: RwSignal::new(0.5),
            set_size: RwSignal::new(USUAL_SET),
            answer: RwSignal::new(String::new()),
            seeds,
            reached: Memo::new(move |_| {
                let (seeds, at) = (seeds.read(), at.get());
                if seeds.contains(&at) { Some(at) } else { seeds.first().copied() }
            }),
            edge: Memo::new(move |_| {
                let own = piece.seed.get();
                let mut sisters = laid(own, 1 + AT_THE_EDGE);
                sisters.retain(|seed| *seed != own);
                sisters.truncate(AT_THE_EDGE);
                sisters
            }),
            first,
            wanted,
            piece,
            nav,
        }
    }

    /// Opens the tray with the present seed on it.
    pub fn open(&self) {
        let seed = self.piece.seed.get_untracked();
        if !self.seeds.with_untracked(|seeds| seeds.contains(&seed)) {
            self.first.set(seed);
            self.wanted.set(A_ROUND);
        }
        self.at.set(seed);
        self.nav.open_area(AreaId::TRAY);
    }

    /// The sisters that a set is picked from: those laid and, if they are few, those that would come next.
    pub fn pool(&self) -> Vec<Seed> {
        let (first, wanted) = (self.first.get_untracked(), self.wanted.get_untracked());
        self.piece.sisters.with_untracked(|sisters| laid_from(first, wanted.max(POOL), &sisters.put_away))
    }

    /// Lays a dozen more.
    pub fn lay_more(&self) {
        self.wanted.update(|wanted| *wanted = (*wanted + A_ROUND).min(MOST));
    }

    /// Lays only so many.
    pub fn lay_only(&self, sisters: usize) {
        self.wanted.set(sisters.max(1));
    }

    /// Takes a sister as the piece's own seed and goes back to the piece.
    pub fn work_on(&self, seed: Seed) {
        self.piece.sow(seed);
        self.nav.go_to_piece();
    }

    /// Takes an option up as it was kept and goes back to the piece.
    pub fn go_back_to(&self, seed: Seed) {
        self.piece.go_back_to(&words::gone_back_to(seed), seed);
        self.nav.go_to_piece();
    }

    /// Keeps a sister, or takes her off the shortlist; gives what was done, in words.
    pub fn toggle_keep(&self, seed: Seed) -> String {
        let (kept, full) = self
            .piece
            .sisters
            .with_untracked(|sisters| (sisters.is_kept(seed), sisters.kept.len() >= MOST_KEPT));
        if full && !kept {
            return words::shortlist_full();
        }
        let recipe = untrack(|| self.piece.sister(seed));
        let name = if kept { words::taken_off(seed) } else { words::kept(seed) };
        self.piece
            .decide(&name, |sisters| if kept { sisters.take_off(seed) } else { sisters.keep(seed, recipe) });
        words::capital(&name)
    }

    /// Takes over for these options how the recipe shows them now; gives what was done, in words.
    pub fn take_change(&self, seeds: &[Seed]) -> String {
        let now = self.shown(seeds);
        let name = words::change_taken(seeds.len());
        self.piece.decide(&name, |sisters| {
            now.into_iter().for_each(|(seed, recipe)| sisters.take_change(seed, recipe));
        });
        words::capital(&name)
    }

    /// Sisters, and the recipe that shows each of them now.
    fn shown(&self, seeds: &[Seed]) -> Vec<(Seed, Arc<Recipe>)> {
        untrack(|| seeds.iter().map(|seed| (*seed, self.piece.sister(*seed))).collect())
    }

    /// Keeps these sisters as the shortlist in place of the last one; those on it already stay as they were kept.
    pub fn keep_only(&self, name: &str, seeds: &[Seed]) {
        let now = self.shown(seeds);
        self.piece.decide(name, |sisters| {
            let before = std::mem::take(&mut sisters.kept);
            sisters.chosen.clear();
            sisters.how_many = None;
            for (seed, recipe) in now {
                let known = before.iter().find(|kept| kept.seed == seed).map(|kept| kept.recipe.clone());
                sisters.keep(seed, known.unwrap_or(recipe));
            }
        });
    }

    /// Puts a sister away; the next one is pointed at. Gives what was done, in words.
    pub fn put_away(&self, seed: Seed) -> String {
        let next = self.seeds.with_untracked(|seeds| after(seeds, seed));
        if let Some(next) = next {
            self.at.set(next);
        }
        self.lifted.update(|lifted| lay_back(lifted, seed));
        let name = words::put_away(seed);
        self.piece.decide(&name, |sisters| sisters.put_away(seed));
        words::capital(&name)
    }

    /// Lifts a sister to one side (0 left, 1 right), or lays her back if she is there.
    pub fn lift(&self, seed: Seed, side: usize) {
        self.lifted.update(|lifted| {
            let there = lifted[side] == Some(seed);
            lay_back(lifted, seed);
            if !there {
                lifted[side] = Some(seed);
            }
        });
    }

    /// Lays back all that is lifted; whether anything was.
    pub fn lay_all_back(&self) -> bool {
        let any = self.lifted.get_untracked() != [None, None];
        if any {
            self.lifted.set([None, None]);
        }
        any
    }

    /// Lifts a sister to the free side, or in place of the one on the right; lays her back if she is lifted.
    pub fn lift_beside(&self, seed: Seed) {
        let side = self.lifted.with_untracked(|lifted| side_for(lifted, seed));
        self.lift(seed, side);
    }
}

/// So many seeds from a first one on, less those put away.
fn laid_from(first: Seed, wanted: usize, away: &[Seed]) -> Vec<Seed> {
    let all = (0..).map(|at| Seed(first.0.wrapping_add(at)));
    all.filter(|seed| !away.contains(seed)).take(wanted).collect()
}

/// The sister after this one, or else before her.
fn after(seeds: &[Seed], seed: Seed) -> Option<Seed> {
    let at = seeds.iter().position(|one| *one == seed)?;
    seeds.get(at + 1).or(at.checked_sub(1).and_then(|at| seeds.get(at))).copied()
}

fn lay_back(lifted: &mut Lifted, seed: Seed) {
    lifted.iter_mut().for_each(|one| *one = one.filter(|one| *one != seed));
}

/// The side that a sister is on, or else the free one, or else the right one.
fn side_for(lifted: &Lifted, seed: Seed) -> usize {
    let side = lifted.iter().position(|one| *one == Some(seed));
    side.or(lifted.iter().position(Option::is_none)).unwrap_or(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: Seed = Seed(1);
    const TWO: Seed = Seed(2);
    const THREE: Seed = Seed(3);

    #[test]
    fn those_put_away_are_passed_over() {
        assert_eq!(laid_from(ONE, 3, &[TWO]), [ONE, THREE, Seed(4)]);
        assert_eq!(
            laid_from(Seed(u32::MAX), 2, &[]),
            [Seed(u32::MAX), Seed(0)],
            "after the last comes the first"
        );
    }

    #[test]
    fn the_next_one_is_pointed_at() {
        let seeds = [ONE, TWO, THREE];
        assert_eq!([ONE, TWO, THREE].map(|seed| after(&seeds, seed)), [Some(TWO), Some(THREE), Some(TWO)]);
        assert_eq!(after(&[ONE], ONE), None);
        assert_eq!(after(&seeds, Seed(9)), None);
    }

    #[test]
    fn a_sister_is_lifted_to_the_free_side() {
        assert_eq!(side_for(&[None, None], ONE), 0);
        assert_eq!(side_for(&[Some(ONE), None], TWO), 1);
        assert_eq!(side_for(&[None, Some(ONE)], TWO), 0);
        assert_eq!(side_for(&[Some(ONE), Some(TWO)], THREE), 1, "in place of the right one");
        assert_eq!(side_for(&[Some(ONE), Some(TWO)], ONE), 0, "where she is");
    }

    #[test]
    fn no_sister_is_on_both_sides() {
        Owner::new().with(|| {
            let nav = Nav::new();
            let tray = Tray::new(Workpiece::new(nav), nav);
            tray.lift(ONE, 0);
            tray.lift(ONE, 1);
            assert_eq!(tray.lifted.get_untracked(), [None, Some(ONE)]);
            tray.lift_beside(TWO);
            tray.lift_beside(THREE);
            assert_eq!(tray.lifted.get_untracked(), [Some(TWO), Some(THREE)]);
            tray.lift_beside(TWO);
            assert_eq!(tray.lifted.get_untracked(), [None, Some(THREE)]);
        });
    }

    #[test]
    fn the_edge_shows_the_next_three() {
        Owner::new().with(|| {
            let nav = Nav::new();
            let tray = Tray::new(Workpiece::new(nav), nav);
            assert_eq!(tray.edge.get_untracked(), [Seed(42), Seed(43), Seed(44)]);
            assert_eq!(tray.seeds.get_untracked().len(), A_ROUND);
            assert_eq!(tray.pool().len(), POOL, "a set has a choice though few are laid");
            (0..99).for_each(|_| tray.lay_more());
            assert_eq!((tray.seeds.get_untracked().len(), tray.pool().len()), (MOST, MOST));
            tray.lay_only(0);
            assert_eq!(tray.seeds.get_untracked(), [FIRST_SEED]);
        });
    }
}
