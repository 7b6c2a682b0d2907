//! Chance against the published cipher it is drawn from, and its streams against each other.

use dappledome::base::seed::{Purpose, Seed};
use rand::Rng;

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

/// ChaCha by the standard's text (RFC 8439, section 2.3), with any number of rounds: bytes of a stream from block 0 on. The
/// standard's counter and nonce are the last four words.
fn chacha(rounds: u32, key: [u8; 32], last: impl Fn(u32) -> [u32; 4], bytes: usize) -> String {
    let word = |i: usize| u32::from_le_bytes([key[4 * i], key[4 * i + 1], key[4 * i + 2], key[4 * i + 3]]);
    let mut drawn = String::new();
    for block in 0.. {
        let mut start =
            [0x6170_7865, 0x3320_646e, 0x7962_2d32, 0x6b20_6574, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        (0..8).for_each(|i| start[4 + i] = word(i));
        start[12..].copy_from_slice(&last(block));
        let mut state = start;
        for round in 0..rounds {
            for i in 0..4 {
                // Columns, then diagonals.
                let on = (round % 2) as usize;
                let at = |row: usize| 4 * row + (i + on * row) % 4;
                quarter_round(&mut state, [at(0), at(1), at(2), at(3)]);
            }
        }
        for (word, start) in state.iter().zip(start) {
            for byte in word.wrapping_add(start).to_le_bytes() {
                drawn += &format!("{byte:02x}");
                if drawn.len() == 2 * bytes {
                    return drawn;
                }
            }
        }
    }
    drawn
}

fn quarter_round(state: &mut [u32; 16], [a, b, c, d]: [usize; 4]) {
    for (into, from, turned, by) in [(a, b, d, 16), (c, d, b, 12), (a, b, d, 8), (c, d, b, 7)] {
        state[into] = state[into].wrapping_add(state[from]);
        state[turned] = (state[turned] ^ state[into]).rotate_left(by);
    }
}

#[test]
fn twenty_rounds_by_the_standards_text_give_its_streams() {
    assert_eq!(chacha(20, [0; 32], |block| [block, 0, 0, 0], 128), ZEROS);
    let counted = |block| [block + 1, 0x0900_0000, 0x4a00_0000, 0];
    assert_eq!(chacha(20, std::array::from_fn(|i| i as u8), counted, 64), COUNTED);
}

/// The engine's own streams are the same cipher with eight rounds: seed and re-roll in the key, purpose and coat in the nonce,
/// and a counter of 64 bits.
#[test]
fn a_purposes_stream_is_the_known_cipher_with_eight_rounds() {
    assert_eq!(chacha(8, [0; 32], |block| [block, 0, 0, 0], 32), EIGHT);
    for (seed, purpose, kind, id, reroll) in [
        (41, Purpose::Coat { id: 7, reroll: 0 }, 1, 7, 0),
        (41, Purpose::Coat { id: u32::MAX, reroll: 3 }, 1, u32::MAX, 3),
        (u32::MAX, Purpose::Sponge, 2, 0, 0u32),
        (1, Purpose::Pores, 3, 0, 0),
        (0, Purpose::Accents, 4, 0, 0),
    ] {
        let mut key = *b"dappledome, layout of a piece   ";
        key[..4].copy_from_slice(&u32::to_le_bytes(seed));
        key[28..].copy_from_slice(&reroll.to_le_bytes());
        let want = chacha(8, key, |block| [block, 0, id, kind], 200);
        assert_eq!(drawn(&mut Seed(seed).stream(purpose), 200), want, "{seed} {purpose:?}");
    }
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
