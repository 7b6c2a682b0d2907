//! A piece as it is written: an option that lies as the recipe shows it is its seed alone; another one names its own recipe,
//! written once however many options share it, and what was laid on it by hand.

use super::hand_work::{HandWork, HandWorks};
use super::model::Recipe;
use super::piece::Piece;
use super::sisters::{Kept, Sisters};
use crate::base::seed::Seed;
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{Error, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use std::fmt;
use std::sync::Arc;

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PieceFile {
    recipe: Recipe,
    seed: Seed,
    #[serde(default, skip_serializing_if = "HandWorks::is_empty")]
    by_hand: HandWorks,
    #[serde(default, skip_serializing_if = "SistersFile::is_empty")]
    sisters: SistersFile,
}

#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SistersFile {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    kept: Vec<KeptFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    recipes: Vec<Recipe>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    put_away: Vec<Seed>,
    #[serde(default, skip_serializing_if = "ChosenFile::is_empty")]
    chosen: ChosenFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    how_many: Option<u32>,
}

/// Read by hand, as [`ChosenFile`] is: what serde makes for a choice without a tag keeps a second reader of everything in it
/// (23 kB in the browser).
#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
enum KeptFile {
    /// As the recipe of the piece shows it.
    Shown(Seed),
    /// As it was kept.
    Own(OwnFile),
}

impl<'de> Deserialize<'de> for KeptFile {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Read;
        impl<'de> Visitor<'de> for Read {
            type Value = KeptFile;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a seed, or an option with its seed")
            }

            fn visit_u64<E: Error>(self, seed: u64) -> Result<KeptFile, E> {
                seed_of(seed).map(KeptFile::Shown)
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<KeptFile, A::Error> {
                OwnFile::deserialize(MapAccessDeserializer::new(map)).map(KeptFile::Own)
            }
        }
        from.deserialize_any(Read)
    }
}

fn seed_of<E: Error>(number: u64) -> Result<Seed, E> {
    u32::try_from(number).map(Seed).map_err(|_| E::custom("a seed is at most 4294967295"))
}

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnFile {
    seed: Seed,
    /// Its place among the recipes, counted from 0; that of the piece if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    recipe: Option<usize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by_hand: Option<HandWork>,
}

/// One seed alone is how a choice was written before there could be several.
#[derive(Clone, Debug, Default, Serialize)]
#[serde(transparent)]
struct ChosenFile(Vec<Seed>);

impl ChosenFile {
    fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'de> Deserialize<'de> for ChosenFile {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Read;
        impl<'de> Visitor<'de> for Read {
            type Value = ChosenFile;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a seed, or a list of seeds")
            }

            fn visit_u64<E: Error>(self, seed: u64) -> Result<ChosenFile, E> {
                seed_of(seed).map(|seed| ChosenFile(vec![seed]))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<ChosenFile, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(list)).map(ChosenFile)
            }
        }
        from.deserialize_any(Read)
    }
}

impl SistersFile {
    fn is_empty(&self) -> bool {
        self.kept.is_empty() && self.put_away.is_empty()
    }
}

impl From<Piece> for PieceFile {
    fn from(piece: Piece) -> Self {
        let mut recipes = Recipes { own: piece.recipe.without_hand_work(), others: Vec::new() };
        let kept = piece.sisters.kept.iter().map(|kept| written(&piece, &mut recipes, kept)).collect();
        let Sisters { put_away, chosen, how_many, .. } = piece.sisters;
        let sisters =
            SistersFile { kept, recipes: recipes.others, put_away, chosen: ChosenFile(chosen), how_many };
        Self { recipe: piece.recipe, seed: piece.seed, by_hand: piece.by_hand, sisters }
    }
}

/// The recipes that options were kept with, without hand work: the piece's own, and each other one once.
struct Recipes {
    own: Recipe,
    others: Vec<Recipe>,
}

impl Recipes {
    fn place_of(&mut self, recipe: Recipe) -> Option<usize> {
        if recipe == self.own {
            return None;
        }
        let known = self.others.iter().position(|other| *other == recipe);
        Some(known.unwrap_or_else(|| {
            self.others.push(recipe);
            self.others.len() - 1
        }))
    }
}

fn written(piece: &Piece, recipes: &mut Recipes, kept: &Kept) -> KeptFile {
    if *kept.recipe == piece.sister(kept.seed) {
        return KeptFile::Shown(kept.seed);
    }
    let mut recipe = Recipe::clone(&kept.recipe);
    let work = recipe.take_hand_work(kept.seed);
    let by_hand = (!work.is_empty()).then_some(work);
    KeptFile::Own(OwnFile { seed: kept.seed, recipe: recipes.place_of(recipe), by_hand })
}

impl TryFrom<PieceFile> for Piece {
    type Error = &'static str;

    fn try_from(file: PieceFile) -> Result<Self, Self::Error> {
        let PieceFile { recipe, seed, mut by_hand, sisters } = file;
        by_hand.tidy(seed);
        let mut piece = Self { recipe, seed, by_hand, sisters: Sisters::default() };
        let own = piece.recipe.without_hand_work();
        let SistersFile { kept, recipes, put_away, chosen, how_many } = sisters;
        let kept = kept.into_iter().map(|kept| read(&piece, &own, &recipes, kept));
        let kept = kept.collect::<Result<_, _>>()?;
        piece.sisters = Sisters { kept, put_away, chosen: chosen.0, how_many };
        piece.sisters.tidy();
        Ok(piece)
    }
}

fn read(piece: &Piece, own: &Recipe, recipes: &[Recipe], kept: KeptFile) -> Result<Kept, &'static str> {
    let OwnFile { seed, recipe, by_hand } = match kept {
        KeptFile::Shown(seed) => return Ok(Kept { seed, recipe: Arc::new(piece.sister(seed)) }),
        KeptFile::Own(own) => own,
    };
    let missing = "an option of the shortlist names a recipe that is not there";
    let mut recipe = match recipe {
        Some(at) => recipes.get(at).ok_or(missing)?.clone(),
        None => own.clone(),
    };
    if let Some(work) = by_hand {
        recipe.lay_hand_work(&HandWork { seed, ..work });
    }
    Ok(Kept { seed, recipe: Arc::new(recipe) })
}
