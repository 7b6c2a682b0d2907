//! What was decided about the sisters of a piece: the shortlist, the customer's choice, and those put away.

use super::model::Recipe;
use crate::base::seed::Seed;
use std::sync::Arc;

/// The most sisters that are remembered as put away.
pub const MOST_PUT_AWAY: usize = 500;
/// The most options on a shortlist: more than any customer looks through.
pub const MOST_KEPT: usize = 100;
/// The most pieces that a customer can choose at once, as on the ticket.
pub const MOST_PIECES: u32 = 200;

/// An option of the shortlist, as it was kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Its seed.
    pub seed: Seed,
    /// The recipe as it was then, with what was laid by hand on this seed.
    pub recipe: Arc<Recipe>,
}

/// What was decided about the sisters of a piece. No seed is both kept and put away.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sisters {
    /// The shortlist, in the order they were kept: the first is A to the customer.
    pub kept: Vec<Kept>,
    /// Those that are not to be seen on the tray any more.
    pub put_away: Vec<Seed>,
    /// The options that the customer chose, in the shortlist's order.
    pub chosen: Vec<Seed>,
    /// How many pieces the customer wants of them in all; unsaid if there is none.
    pub how_many: Option<u32>,
}

impl Sisters {
    /// Whether nothing has been decided.
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty() && self.put_away.is_empty()
    }

    /// The option with this seed.
    pub fn option(&self, seed: Seed) -> Option<&Kept> {
        self.kept.iter().find(|kept| kept.seed == seed)
    }

    /// The seeds of the shortlist, in its order.
    pub fn kept_seeds(&self) -> Vec<Seed> {
        self.kept.iter().map(|kept| kept.seed).collect()
    }

    /// Whether a sister is on the shortlist.
    pub fn is_kept(&self, seed: Seed) -> bool {
        self.option(seed).is_some()
    }

    /// The letter of a kept sister, as the customer sees it: A, B, … Z, AA, AB, …
    pub fn letter(&self, seed: Seed) -> Option<String> {
        self.kept.iter().position(|kept| kept.seed == seed).map(letter)
    }

    /// Keeps a sister at the end of the shortlist, as this recipe shows her. One that is kept already, or has no room any
    /// more, is not kept again.
    pub fn keep(&mut self, seed: Seed, recipe: Arc<Recipe>) {
        if !self.is_kept(seed) && self.kept.len() < MOST_KEPT {
            self.put_away.retain(|away| *away != seed);
            self.kept.push(Kept { seed, recipe });
        }
    }

    /// Takes a sister off the shortlist.
    pub fn take_off(&mut self, seed: Seed) {
        self.kept.retain(|kept| kept.seed != seed);
        self.unchoose(seed);
    }

    /// Takes over for an option how the recipe shows her now.
    pub fn take_change(&mut self, seed: Seed, recipe: Arc<Recipe>) {
        if let Some(kept) = self.kept.iter_mut().find(|kept| kept.seed == seed) {
            kept.recipe = recipe;
        }
    }

    /// Puts a sister away; she is not on the shortlist any more either.
    pub fn put_away(&mut self, seed: Seed) {
        self.take_off(seed);
        if !self.put_away.contains(&seed) && self.put_away.len() < MOST_PUT_AWAY {
            self.put_away.push(seed);
        }
    }

    /// Chooses one option instead of what was chosen.
    pub fn choose(&mut self, seed: Seed) {
        self.chosen.clear();
        self.how_many = None;
        self.choose_too(seed);
    }

    /// Chooses an option as well.
    pub fn choose_too(&mut self, seed: Seed) {
        let before = std::mem::take(&mut self.chosen);
        let chosen = |kept: &&Kept| kept.seed == seed || before.contains(&kept.seed);
        self.chosen = self.kept.iter().filter(chosen).map(|kept| kept.seed).collect();
        self.one_of_each_at_least();
    }

    /// Chooses every option.
    pub fn choose_all(&mut self) {
        self.chosen = self.kept_seeds();
        self.one_of_each_at_least();
    }

    /// Wants so many pieces of what was chosen: one of each at least.
    pub fn want(&mut self, pieces: u32) {
        self.how_many = Some(pieces.min(MOST_PIECES));
        self.one_of_each_at_least();
    }

    /// How many pieces of what was chosen are wanted in all: unless it was said, as many as the ticket is for, and one of
    /// each at least.
    pub fn pieces(&self, ticket_for: u32) -> u32 {
        self.how_many.unwrap_or(ticket_for.max(self.chosen.len() as u32))
    }

    /// The options to be made and how many pieces in all: those chosen or, before there is a choice, every option.
    pub fn wanted(&self, ticket_for: u32) -> (Vec<Seed>, u32) {
        let seeds = if self.chosen.is_empty() { self.kept_seeds() } else { self.chosen.clone() };
        let pieces = self.pieces(ticket_for).max(seeds.len() as u32);
        (seeds, pieces)
    }

    fn one_of_each_at_least(&mut self) {
        let least = self.chosen.len() as u32;
        self.how_many = self.how_many.map(|pieces| pieces.max(least));
    }

    /// Lets go of an option that was chosen. Without any there is no number of pieces either.
    pub fn unchoose(&mut self, seed: Seed) {
        self.chosen.retain(|chosen| *chosen != seed);
        if self.chosen.is_empty() {
            self.how_many = None;
        }
    }

    /// The letters of what was chosen.
    pub fn chosen_letters(&self) -> Vec<String> {
        self.chosen.iter().filter_map(|seed| self.letter(*seed)).collect()
    }

    /// Each seed once, in one list only, and no more than may be.
    pub(super) fn tidy(&mut self) {
        let mut seen = Vec::new();
        let mut new = |seed: Seed| {
            let new = !seen.contains(&seed);
            seen.push(seed);
            new
        };
        self.kept.truncate(MOST_KEPT);
        self.kept.retain(|kept| new(kept.seed));
        self.put_away.truncate(MOST_PUT_AWAY);
        self.put_away.retain(|seed| new(*seed));
        let said = std::mem::take(&mut self.chosen);
        self.chosen = self.kept_seeds();
        self.chosen.retain(|seed| said.contains(seed));
        let sound = |pieces: &u32| !self.chosen.is_empty() && (1..=MOST_PIECES).contains(pieces);
        self.how_many = self.how_many.filter(sound);
    }
}

/// The letter of the `at`th option, counted from 0.
pub fn letter(at: usize) -> String {
    let last = char::from(b'A' + (at % 26) as u8);
    if at < 26 { last.into() } else { format!("{}{last}", letter(at / 26 - 1)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn recipe() -> Arc<Recipe> {
        Arc::new(Recipe::bare())
    }

    fn kept(seeds: &[u32]) -> Sisters {
        let mut sisters = Sisters::default();
        seeds.iter().for_each(|seed| sisters.keep(Seed(*seed), recipe()));
        sisters
    }

    fn seeds(sisters: &Sisters) -> Vec<u32> {
        sisters.kept.iter().map(|kept| kept.seed.0).collect()
    }

    #[test]
    fn a_sister_is_kept_or_away_but_not_both() {
        let mut sisters = kept(&[1, 2, 1]);
        assert_eq!(seeds(&sisters), [1, 2]);
        assert_eq!(sisters.letter(Seed(2)).as_deref(), Some("B"));
        sisters.choose(Seed(1));
        sisters.want(12);
        sisters.put_away(Seed(1));
        assert_eq!((seeds(&sisters), sisters.chosen.len(), sisters.how_many), (vec![2], 0, None));
        sisters.keep(Seed(1), recipe());
        assert!(sisters.put_away.is_empty() && sisters.is_kept(Seed(1)));
    }

    #[test]
    fn one_is_chosen_or_several_or_all() {
        let mut sisters = kept(&[5, 7, 9]);
        sisters.choose(Seed(9));
        sisters.choose_too(Seed(5));
        sisters.choose_too(Seed(4));
        assert_eq!(sisters.chosen_letters(), ["A", "C"]);
        sisters.choose(Seed(7));
        assert_eq!(sisters.chosen, [Seed(7)]);
        sisters.choose_all();
        sisters.take_off(Seed(7));
        assert_eq!(sisters.chosen_letters(), ["A", "B"]);
        sisters.unchoose(Seed(5));
        assert_eq!(sisters.chosen, [Seed(9)]);
    }

    #[test]
    fn of_each_chosen_option_one_piece_is_wanted_at_least() {
        let mut sisters = kept(&[5, 7, 9]);
        sisters.choose(Seed(5));
        assert_eq!((sisters.pieces(1), sisters.pieces(6)), (1, 6));
        sisters.want(12);
        sisters.choose_too(Seed(7));
        assert_eq!(sisters.pieces(1), 12);
        sisters.want(0);
        assert_eq!(sisters.pieces(1), 2);
        sisters.choose_all();
        assert_eq!(sisters.pieces(1), 3);
        sisters.want(9000);
        assert_eq!(sisters.pieces(1), MOST_PIECES);
        sisters.choose(Seed(9));
        assert_eq!(sisters.how_many, None, "another choice, another number");
    }

    #[test]
    fn an_option_stays_as_it_was_kept_until_the_change_is_taken() {
        let mut sisters = kept(&[1, 2]);
        let other = Arc::new(Recipe { title: "Other".into(), ..Recipe::bare() });
        sisters.keep(Seed(1), other.clone());
        assert_eq!(sisters.option(Seed(1)).unwrap().recipe, recipe());
        sisters.take_change(Seed(1), other.clone());
        assert_eq!(sisters.option(Seed(1)).unwrap().recipe, other);
        assert_eq!(sisters.option(Seed(2)).unwrap().recipe, recipe());
    }

    #[test]
    fn what_does_not_fit_is_put_in_order() {
        let mut hostile = kept(&[5, 6]);
        hostile.kept.push(Kept { seed: Seed(5), recipe: recipe() });
        hostile.put_away = [6, 7, 7].map(Seed).to_vec();
        hostile.chosen = [6, 7, 5, 6].map(Seed).to_vec();
        hostile.how_many = Some(0);
        hostile.tidy();
        let expected = Sisters { put_away: vec![Seed(7)], chosen: vec![Seed(5), Seed(6)], ..kept(&[5, 6]) };
        assert_eq!(hostile, expected);
    }

    #[test]
    fn a_full_shortlist_takes_no_more() {
        let all: Vec<u32> = (0..150).collect();
        assert_eq!(kept(&all).kept.len(), MOST_KEPT);
    }

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 25, 26, 27, 51, 52].map(letter), ["A", "Z", "AA", "AB", "AZ", "BA"]);
    }
}
