//! A piece in a link: its JSON, deflated (RFC 1951) and written in the letters that an address may hold (base64url of
//! RFC 4648). It stands behind the `#`, which browsers never send to anyone.

use super::file;
use super::piece::{self, Piece};
use crate::base::notice::{Notice, Severity, Step};
use crate::base::seed::Seed;
use base64::Engine;
use base64::prelude::BASE64_URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;

/// What the part of an address behind the `#` begins with when it holds a piece.
pub const MARK: &str = "piece=";

/// The part behind the `#` of a link to this piece.
pub fn write(piece: &Piece) -> String {
    format!("{MARK}{}", BASE64_URL_SAFE_NO_PAD.encode(compress_to_vec(piece.write().as_bytes(), 9)))
}

/// The piece that the part of an address behind the `#` holds; none if it holds no piece at all.
///
/// # Errors
/// A [`Notice`] of severity *fault* if it holds one that cannot be read.
pub fn read(fragment: &str) -> Option<Result<Piece, Notice>> {
    let packed = fragment.trim_start_matches('#').strip_prefix(MARK)?;
    Some(unpack(packed).and_then(|text| Piece::read(&text, Seed::default())))
}

fn unpack(packed: &str) -> Result<String, Notice> {
    // A browser may have escaped what a mail program broke; neither belongs in it.
    let packed = packed.trim().trim_end_matches('=');
    if packed.len() > file::MOST_BYTES {
        return Err(damaged("It is longer than any recipe."));
    }
    let bytes = BASE64_URL_SAFE_NO_PAD
        .decode(packed)
        .map_err(|_| damaged("A letter in it is missing, or does not belong there."))?;
    let text = decompress_to_vec_with_limit(&bytes, piece::MOST_BYTES)
        .map_err(|_| damaged("A part of it is missing or was changed."))?;
    String::from_utf8(text).map_err(|_| damaged("A part of it was changed."))
}

fn damaged(why: &str) -> Notice {
    let remedy = "Copy the whole link again, from its first letter to its last.";
    Notice::new(Severity::Fault, Step::Recipe, "A damaged link.", why, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::demo;

    #[test]
    fn every_demo_piece_comes_back_from_its_link() {
        for recipe in demo::all() {
            let piece = Piece::new(recipe, Seed(41));
            let link = write(&piece);
            assert!(link.len() < 2000, "{} letters", link.len());
            assert_eq!(read(&format!("#{link}")), Some(Ok(piece)));
        }
    }

    #[test]
    fn what_is_no_link_is_none_and_a_broken_one_is_said() {
        assert_eq!(read(""), None);
        assert_eq!(read("#recipe"), None);
        let link = write(&Piece::new(demo::ember_walk(), Seed(41)));
        for broken in [&link[..link.len() / 2], "piece=", "piece=!!!!", "piece=AAAA", &format!("{link}AAAA!")]
        {
            assert!(read(broken).expect(broken).is_err(), "{broken}");
        }
    }

    #[test]
    fn a_bomb_is_not_unpacked() {
        let bomb = compress_to_vec(&vec![b' '; 64 << 20], 9);
        let link = format!("{MARK}{}", BASE64_URL_SAFE_NO_PAD.encode(bomb));
        assert!(read(&link).unwrap().is_err());
    }
}
