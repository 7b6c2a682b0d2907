//! Chance that repeats: one number gives a layout, with a stream of its own for every purpose and every coat.

use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The number that repeats a layout.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct Seed(pub u32);

impl fmt::Display for Seed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// What a stream of chance is for. A purpose never shares a stream with another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Purpose {
    /// The fall of one coat, by the coat's id and how often it was re-rolled.
    Coat {
        /// The coat's id in its recipe.
        id: u32,
        /// How often the maker asked for another fall of this coat alone.
        reroll: u32,
    },
    /// Where the sponge is rolled.
    Sponge,
    /// The face of the sponge itself, the same sponge for every piece.
    Pores,
    /// Where the accents lie.
    Accents,
    /// Where discs are tried on a sheet or a shelf.
    Packing,
}

impl Seed {
    /// The stream of random numbers for a purpose.
    pub fn stream(self, purpose: Purpose) -> ChaCha8Rng {
        let (kind, id, reroll) = match purpose {
            Purpose::Coat { id, reroll } => (1u32, id, reroll),
            Purpose::Sponge => (2, 0, 0),
            Purpose::Pores => (3, 0, 0),
            Purpose::Accents => (4, 0, 0),
            Purpose::Packing => (5, 0, 0),
        };
        let mut key = *b"dappledome, layout of a piece   ";
        key[..4].copy_from_slice(&self.0.to_le_bytes());
        key[28..].copy_from_slice(&reroll.to_le_bytes());
        let mut rng = ChaCha8Rng::from_seed(key);
        rng.set_stream(u64::from(kind) << 32 | u64::from(id));
        rng
    }
}
