//! A piece: a recipe with its seed, and what was decided among its sisters.

use super::file;
use super::model::Recipe;
use crate::base::notice::Notice;
use crate::base::seed::Seed;
use serde::{Deserialize, Serialize};

/// The most sisters that a piece remembers a decision about.
pub const MOST_SISTERS: usize = 500;

/// A recipe, the seed it is looked at with, and the sisters kept or put away.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// The recipe.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What was decided among its sisters.
    #[serde(default, skip_serializing_if = "Sisters::is_empty")]
    pub sisters: Sisters,
}

/// What was decided about the sisters of a piece. No seed is in both lists.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sisters {
    /// The shortlist, in the order they were kept: the first is A to the customer.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept: Vec<Seed>,
    /// Those that are not to be seen on the tray any more.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub put_away: Vec<Seed>,
    /// The one the customer chose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chosen: Option<Seed>,
}

impl Piece {
    /// A piece that nothing has been decided about yet.
    pub fn new(recipe: Recipe, seed: Seed) -> Self {
        Self { recipe, seed, sisters: Sisters::default() }
    }

    /// Reads a piece from JSON: a recipe alone (its seed is then the given one), or a recipe with seed and sisters.
    ///
    /// # Errors
    /// The refusal of [`file::read`] if it is neither.
    #[inline]
    pub fn read(text: &str, seed: Seed) -> Result<Self, Notice> {
        match serde_json::from_str::<Self>(text) {
            Ok(piece) if text.len() <= file::MOST_BYTES => piece.checked(),
            _ => Ok(Self::new(file::read(text)?, seed)),
        }
    }

    /// The piece as it was read, its sisters in order.
    ///
    /// # Errors
    /// A refusal if its recipe has another version.
    pub fn checked(mut self) -> Result<Self, Notice> {
        file::check_version(self.recipe.version)?;
        self.sisters.tidy();
        Ok(self)
    }

    /// The piece as JSON. Written as recipes are: a second way to write would weigh as much again in the browser.
    #[inline]
    pub fn write(&self) -> String {
        serde_json::to_string_pretty(self).expect("a piece has only strings and finite numbers")
    }
}

impl Sisters {
    /// Whether nothing has been decided.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The letter of a kept sister, as the customer sees it: A, B, … Z, AA, AB, …
    pub fn letter(&self, seed: Seed) -> Option<String> {
        self.kept.iter().position(|kept| *kept == seed).map(letter)
    }

    /// Keeps a sister at the end of the shortlist, or takes her off it.
    pub fn turn_keep(&mut self, seed: Seed) {
        if self.kept.contains(&seed) {
            self.kept.retain(|kept| *kept != seed);
            self.chosen = self.chosen.filter(|chosen| *chosen != seed);
        } else if self.kept.len() < MOST_SISTERS {
            self.put_away.retain(|away| *away != seed);
            self.kept.push(seed);
        }
    }

    /// Puts a sister away; she is not on the shortlist any more either.
    pub fn put_away(&mut self, seed: Seed) {
        if self.kept.contains(&seed) {
            self.turn_keep(seed);
        }
        if !self.put_away.contains(&seed) && self.put_away.len() < MOST_SISTERS {
            self.put_away.push(seed);
        }
    }

    /// Each seed once, in one list only, and no more than may be.
    fn tidy(&mut self) {
        let mut seen = Vec::new();
        for list in [&mut self.kept, &mut self.put_away] {
            list.truncate(MOST_SISTERS);
            list.retain(|seed| {
                let new = !seen.contains(seed);
                seen.push(*seed);
                new
            });
        }
        self.chosen = self.chosen.filter(|chosen| self.kept.contains(chosen));
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
    use crate::recipe::demo;

    #[test]
    fn a_piece_is_read_as_it_was_written_and_a_recipe_is_a_piece() {
        let mut piece = Piece::new(demo::ember_walk(), Seed(7));
        piece.sisters.turn_keep(Seed(9));
        piece.sisters.put_away(Seed(8));
        piece.sisters.chosen = Some(Seed(9));
        assert_eq!(Piece::read(&piece.write(), Seed(1)), Ok(piece.clone()));
        let alone = Piece::read(&file::write(&piece.recipe), Seed(3)).unwrap();
        assert_eq!((alone.recipe, alone.seed), (piece.recipe, Seed(3)));
    }

    #[test]
    fn a_sister_is_kept_or_away_but_not_both() {
        let mut sisters = Sisters::default();
        sisters.turn_keep(Seed(1));
        sisters.turn_keep(Seed(2));
        assert_eq!(sisters.letter(Seed(2)).as_deref(), Some("B"));
        sisters.chosen = Some(Seed(1));
        sisters.put_away(Seed(1));
        assert_eq!((sisters.kept.as_slice(), sisters.chosen), (&[Seed(2)][..], None));
        sisters.turn_keep(Seed(1));
        assert!(sisters.put_away.is_empty());
        let text = r#"{"kept":[5,5,6],"put_away":[6,7,7],"chosen":7}"#;
        let mut hostile: Sisters = serde_json::from_str(text).unwrap();
        hostile.tidy();
        assert_eq!(hostile, Sisters { kept: vec![Seed(5), Seed(6)], put_away: vec![Seed(7)], chosen: None });
    }

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 25, 26, 27, 51, 52].map(letter), ["A", "Z", "AA", "AB", "AZ", "BA"]);
    }
}
