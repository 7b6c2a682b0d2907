//! A random sample of every folder.

use super::FOLDERS;
use super::changes::Change;
use rand::SeedableRng;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

/// So many changes of every folder, the folders in turn, so that a sample that is broken off is still even.
pub fn drawn(all: &[Change], each: usize, numbers: usize, seed: u64) -> Vec<&Change> {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let mut piles = Vec::new();
    for folder in FOLDERS {
        for (count, is_number) in [(each, false), (numbers, true)] {
            let of = |change: &&Change| change.folder() == folder && change.is_number() == is_number;
            let mut pile: Vec<&Change> = all.iter().filter(of).collect();
            pile.shuffle(&mut chance);
            pile.truncate(count);
            piles.push(pile);
        }
    }
    let most = piles.iter().map(Vec::len).max().unwrap_or(0);
    (0..most).flat_map(|at| piles.iter().filter_map(move |pile| pile.get(at).copied())).collect()
}
