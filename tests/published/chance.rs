//! Chance against the published cipher it is drawn from, and its streams against each other.

use dappledome::base::seed::{Purpose, Seed};
use rand::{Rng, SeedableRng};
use rand_chacha::{ChaCha8Rng, ChaCha20Rng};

/// RFC 8439, appendix A.1, test vectors 1 and 2: key and nonce of zeros, blocks 0 and 1.
const ZEROS: &str = "76b8e0ada0f13d90405d6ae55386bd28bdd219b8a08ded1aa836efcc8b770dc7\
                     da41597c5157488d7724e03fb8d84a376a43b8f41518a11cc387b669b2ee6586\
                     9f07e7be5551387a98ba977c732d080dcb0f29a048e3656912c6533e32ee7aed\
                     29b721769ce64e43d57133b074d839d531ed1f28510afb45ace10a1f4b794d6f";

/// RFC 8439, section 2.3.2: key 00 01 .. 1f, nonce 00 00 00 09 00 00 00 4a 00 00 00 00, block 1.
const COUNTED: &str = "10f1e7e4d13b5915500fdd1fa32071c4c7d1f4c733c068030422aa9ac3d46c4e\
                       d2826446079faa0914c2d705d98b02a2b5129cd1de164eb9cbd083e8a2503c4e";

/// ChaCha with 8 rounds, key and nonce of zeros (Strombergson's draft of test vectors, TC1; from memory).
const EIGHT: &str = "3e00ef2f895f40d67f5bb8e81f09a5a12c840ec3ce9a7f3b181be188ef711a1e";

#[test]
fn twenty_rounds_give_the_standards_stream() {
    let mut rng = ChaCha20Rng::from_seed([0; 32]);
    assert_eq!(drawn(&mut rng, 128), ZEROS);
}

#[test]
fn key_and_nonce_lie_where_the_standard_has_them() {
    let mut rng = ChaCha20Rng::from_seed(std::array::from_fn(|i| i as u8));
    // The standard's first word of nonce is the upper half of this crate's block counter.
    rng.set_word_pos(((0x0900_0000u128 << 32) | 1) * 16);
    rng.set_stream(0x4a00_0000);
    assert_eq!(drawn(&mut rng, 64), COUNTED);
}

#[test]
fn eight_rounds_give_the_known_stream() {
    let mut rng = ChaCha8Rng::from_seed([0; 32]);
    assert_eq!(drawn(&mut rng, 32), EIGHT);
}

/// Own requirement.
#[test]
fn a_purpose_has_one_stream_of_its_own() {
    let mut streams = Vec::new();
    for seed in [0, 1, 7, u32::MAX] {
        for purpose in purposes() {
            let stream = drawn(&mut Seed(seed).stream(purpose), 64);
            assert_eq!(stream, drawn(&mut Seed(seed).stream(purpose), 64), "{seed} {purpose:?}");
            streams.push(stream);
        }
    }
    let all = streams.len();
    streams.sort_unstable();
    streams.dedup();
    assert_eq!(streams.len(), all, "two purposes share a stream");
}

/// Coats whose ids could be taken for another purpose or for a re-roll, and all other purposes.
fn purposes() -> Vec<Purpose> {
    let mut all = vec![Purpose::Sponge, Purpose::Pores, Purpose::Accents];
    for id in [0, 1, 2, 3, 4, 256, 1 << 31, u32::MAX] {
        all.extend([0, 1, 2, 1 << 24].map(|reroll| Purpose::Coat { id, reroll }));
    }
    all
}

fn drawn(rng: &mut impl Rng, bytes: usize) -> String {
    let mut drawn = vec![0; bytes];
    rng.fill_bytes(&mut drawn);
    drawn.iter().map(|byte| format!("{byte:02x}")).collect()
}
