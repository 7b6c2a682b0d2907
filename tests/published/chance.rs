//! The generator of chance.

use dappledome::base::seed::{Purpose, Seed};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha20Rng;

/// RFC 8439, appendix A.1, test vector 1: the key stream of a zero key and nonce from block 0. The engine uses the same
/// generator with 8 rounds, for which the RFC has no vector.
#[test]
fn chacha_is_the_published_cipher() {
    let mut bytes = [0u8; 64];
    ChaCha20Rng::from_seed([0; 32]).fill_bytes(&mut bytes);
    let published = "76b8e0ada0f13d90405d6ae55386bd28bdd219b8a08ded1aa836efcc8b770dc7\
        da41597c5157488d7724e03fb8d84a376a43b8f41518a11cc387b669b2ee6586";
    let got: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(got, published);
}

#[test]
fn streams_do_not_meet() {
    let purposes = [
        Purpose::Coat { id: 1, reroll: 0 },
        Purpose::Coat { id: 2, reroll: 0 },
        Purpose::Coat { id: 1, reroll: 1 },
        Purpose::Sponge,
        Purpose::Pores,
        Purpose::Accents,
    ];
    let mut firsts: Vec<u64> = Vec::new();
    for seed in [0, 1, 2, u32::MAX] {
        for purpose in purposes {
            let first = Seed(seed).stream(purpose).next_u64();
            assert_eq!(first, Seed(seed).stream(purpose).next_u64(), "{seed} {purpose:?} repeats");
            firsts.push(first);
        }
    }
    firsts.sort_unstable();
    firsts.dedup();
    assert_eq!(firsts.len(), 24);
}
