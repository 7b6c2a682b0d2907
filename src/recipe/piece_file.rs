//! A piece as it is written: an option that lies as the recipe shows it is its seed alone; another one names its own recipe,
//! written once however many options share it, and what was laid on it by hand.

use super::hand_work::{HandWork, HandWorks};
use super::model::Recipe;
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

impl PieceFile {
    /// The file of a piece.
    pub fn of(recipe: Recipe, seed: Seed, by_hand: HandWorks, sisters: Sisters) -> Self {
        let Sisters { kept, put_away, chosen, how_many } = sisters;
        let shown = |of| by_hand.sister(&recipe, seed, of);
        let mut recipes = Recipes { own: recipe.without_hand_work(), others: Vec::new() };
        let kept = kept.iter().map(|kept| written(kept, shown(kept.seed), &mut recipes)).collect();
        let sisters =
            SistersFile { kept, recipes: recipes.others, put_away, chosen: ChosenFile(chosen), how_many };
        Self { recipe, seed, by_hand, sisters }
    }

    /// What the piece of a file is made of.
    ///
    /// # Errors
    /// What is wrong, if an option is not whole.
    pub fn parts(self) -> Result<(Recipe, Seed, HandWorks, Sisters), &'static str> {
        let Self { recipe, seed, mut by_hand, sisters } = self;
        by_hand.tidy(seed);
        let own = recipe.without_hand_work();
        let SistersFile { kept, recipes, put_away, chosen, how_many } = sisters;
        let kept = kept.into_iter().map(|kept| match kept {
            KeptFile::Shown(of) => Ok(Kept { seed: of, recipe: Arc::new(by_hand.sister(&recipe, seed, of)) }),
            KeptFile::Own(kept) => read(kept, &own, &recipes),
        });
        let kept = kept.collect::<Result<_, _>>()?;
        let mut sisters = Sisters { kept, put_away, chosen: chosen.0, how_many };
        sisters.tidy();
        Ok((recipe, seed, by_hand, sisters))
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

/// An option, which the piece shows like this by now.
fn written(kept: &Kept, shown: Recipe, recipes: &mut Recipes) -> KeptFile {
    if *kept.recipe == shown {
        return KeptFile::Shown(kept.seed);
    }
    let mut recipe = Recipe::clone(&kept.recipe);
    let work = recipe.take_hand_work(kept.seed);
    let by_hand = (!work.is_empty()).then_some(work);
    KeptFile::Own(OwnFile { seed: kept.seed, recipe: recipes.place_of(recipe), by_hand })
}

fn read(kept: OwnFile, own: &Recipe, recipes: &[Recipe]) -> Result<Kept, &'static str> {
    let OwnFile { seed, recipe, by_hand } = kept;
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
