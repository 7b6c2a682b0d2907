//! A piece: a recipe with its seed, what was laid by hand on its sisters, and what was decided about them.

use super::file;
use super::hand_work::HandWorks;
use super::model::Recipe;
use super::piece_file::PieceFile;
use super::sisters::Sisters;
use crate::base::notice::Notice;
use crate::base::seed::Seed;
use serde::{Deserialize, Serialize};

/// The longest text of a piece that is read, bytes: a full shortlist with a recipe of its own for every option.
pub const MOST_BYTES: usize = 16 << 20;

/// A recipe, the seed it is looked at with, and what belongs to its sisters.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "PieceFile", into = "PieceFile")]
pub struct Piece {
    /// The recipe, with what was laid by hand on the seed.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What was laid by hand on other seeds.
    pub by_hand: HandWorks,
    /// What was decided among its sisters.
    pub sisters: Sisters,
}

impl Piece {
    /// A piece that nothing has been decided about yet.
    pub fn new(recipe: Recipe, seed: Seed) -> Self {
        Self { recipe, seed, by_hand: HandWorks::default(), sisters: Sisters::default() }
    }

    /// The recipe as it shows this seed: with what was laid by hand on it, and on no other.
    pub fn sister(&self, seed: Seed) -> Recipe {
        self.by_hand.sister(&self.recipe, self.seed, seed)
    }

    /// Another piece with this recipe: of fresh seeds, and without what was decided about the sisters of this one.
    pub fn copy(&self, seed: Seed) -> Self {
        let mut copy = Self { sisters: Sisters::default(), ..self.clone() };
        copy.turn_to(seed);
        copy
    }

    /// Takes another seed. What was laid by hand stays with its seed.
    pub fn turn_to(&mut self, seed: Seed) {
        self.by_hand.turn(&mut self.recipe, self.seed, seed);
        self.seed = seed;
    }

    /// Reads a piece from JSON: a recipe alone (its seed is then the given one), or a recipe with seed and sisters.
    ///
    /// # Errors
    /// The refusal of [`file::read`] if it is neither.
    pub fn read(text: &str, seed: Seed) -> Result<Self, Notice> {
        if text.len() <= MOST_BYTES
            && let Ok(piece) = serde_json::from_str::<Self>(text)
        {
            return piece.checked();
        }
        Ok(Self::new(file::read(text)?, seed))
    }

    /// The piece as it was read.
    ///
    /// # Errors
    /// A refusal if a recipe in it has another version.
    pub fn checked(self) -> Result<Self, Notice> {
        file::check_version(self.recipe.version)?;
        self.sisters.kept.iter().try_for_each(|kept| file::check_version(kept.recipe.version))?;
        Ok(self)
    }

    /// The piece as JSON. Written as recipes are: a second way to write would weigh as much again in the browser.
    pub fn write(&self) -> String {
        serde_json::to_string_pretty(self).expect("a piece has only strings and finite numbers")
    }
}

impl From<Piece> for PieceFile {
    fn from(Piece { recipe, seed, by_hand, sisters }: Piece) -> Self {
        Self::of(recipe, seed, by_hand, sisters)
    }
}

impl TryFrom<PieceFile> for Piece {
    type Error = &'static str;

    fn try_from(file: PieceFile) -> Result<Self, Self::Error> {
        let (recipe, seed, by_hand, sisters) = file.parts()?;
        Ok(Self { recipe, seed, by_hand, sisters })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;
    use crate::recipe::demo;
    use std::sync::Arc;

    const DOT: [[f64; 2]; 1] = [[3.0, 4.0]];

    /// A piece at seed 7 with a shortlist of four: as shown, laid by hand, of an older recipe, and both.
    fn full() -> Piece {
        let mut piece = Piece::new(demo::ember_walk(), Seed(7));
        piece.recipe.rub_off(Mm(9.0), &DOT);
        let mut old = demo::all().pop().expect("there are some");
        piece.sisters.keep(Seed(7), Arc::new(piece.sister(Seed(7))));
        piece.sisters.keep(Seed(8), Arc::new(piece.sister(Seed(8))));
        piece.sisters.keep(Seed(9), Arc::new(old.clone()));
        old.rub_off(Mm(5.0), &DOT);
        piece.sisters.keep(Seed(10), Arc::new(old));
        piece.turn_to(Seed(20));
        piece.recipe.rub_off(Mm(11.0), &DOT);
        piece.sisters.put_away(Seed(3));
        piece.sisters.choose(Seed(9));
        piece.sisters.choose_too(Seed(8));
        piece.sisters.want(12);
        piece
    }

    #[test]
    fn a_piece_is_read_as_it_was_written() {
        let piece = full();
        assert_eq!(Piece::read(&piece.write(), Seed(1)), Ok(piece.clone()));
        let bare = Piece::new(demo::ember_walk(), Seed(7));
        assert!(!bare.write().contains("sisters") && !bare.write().contains("\"by_hand\": ["));
    }

    #[test]
    fn options_that_share_a_recipe_share_its_text() {
        let text = full().write();
        let written: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(written["sisters"]["recipes"].as_array().unwrap().len(), 1);
        assert_eq!(written["sisters"]["kept"][0], 7, "it lies as the piece shows it");
        assert_eq!(written["sisters"]["kept"][2]["recipe"], 0);
        assert_eq!(written["sisters"]["kept"][3]["by_hand"]["sponged_off"][0]["width"], 5.0);
    }

    #[test]
    fn each_seed_has_what_was_laid_on_it_and_nothing_else() {
        let piece = full();
        let widths = |seed| -> Vec<f64> {
            piece.sister(Seed(seed)).sponged_off.iter().map(|rub| rub.width.0).collect()
        };
        assert_eq!((widths(20), widths(7), widths(8)), (vec![11.0], vec![9.0], vec![]));
    }

    #[test]
    fn a_copy_starts_with_fresh_seeds_and_no_shortlist() {
        let piece = full();
        let copy = piece.copy(Seed(900));
        assert_eq!((copy.seed, &copy.sisters), (Seed(900), &Sisters::default()));
        assert_eq!(copy.recipe, demo::ember_walk(), "nothing was laid by hand on the fresh seed");
        assert_eq!(copy.sister(Seed(20)), piece.recipe, "the old seed still shows what was laid on it");
    }

    #[test]
    fn a_recipe_is_a_piece_and_an_older_piece_is_one_too() {
        let recipe = demo::ember_walk();
        let alone = Piece::read(&file::write(&recipe), Seed(3)).unwrap();
        assert_eq!((&alone.recipe, alone.seed), (&recipe, Seed(3)));
        let older = format!(
            r#"{{"recipe":{},"seed":7,"sisters":{{"kept":[9,7,9],"put_away":[8],"chosen":9}}}}"#,
            file::write(&recipe)
        );
        let older = Piece::read(&older, Seed(1)).unwrap();
        let kept: Vec<Seed> = older.sisters.kept.iter().map(|kept| kept.seed).collect();
        assert_eq!((kept, older.sisters.chosen), (vec![Seed(9), Seed(7)], vec![Seed(9)]));
        assert!(older.sisters.kept.iter().all(|kept| *kept.recipe == recipe));
    }

    #[test]
    fn what_is_wrong_with_an_option_is_refused() {
        let text = full().write();
        assert!(Piece::read(&text.replace("\"recipe\": 0", "\"recipe\": 5"), Seed(1)).is_err());
        let mut newer: serde_json::Value = serde_json::from_str(&text).unwrap();
        newer["sisters"]["recipes"][0]["version"] = 2.into();
        assert!(Piece::read(&newer.to_string(), Seed(1)).is_err());
    }
}
