//! Pictures as PNG (ISO/IEC 15948), with the recipe and the seed inside as text: written whole, or the text put into
//! a picture that somebody else has written, and read again.

use super::pixmap::Pixmap;
use crate::recipe::piece;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;

/// The keyword of the text chunk that holds the recipe.
pub const RECIPE_KEYWORD: &str = "Dappledome recipe";
/// The keyword of the text chunk that holds the seed.
pub const SEED_KEYWORD: &str = "Dappledome seed";

/// How every PNG begins.
pub const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";
/// The longest text that is read, bytes.
const MOST_TEXT: usize = piece::MOST_BYTES;

/// Encodes a picture as 8-bit RGB, each text as an iTXt chunk of (keyword, UTF-8 text).
pub fn encode(picture: &Pixmap, texts: &[(&str, &str)]) -> Vec<u8> {
    let mut out = SIGNATURE.to_vec();
    let mut header = Vec::with_capacity(13);
    header.extend(picture.width.to_be_bytes());
    header.extend(picture.height.to_be_bytes());
    header.extend([8, 2, 0, 0, 0]); // 8 bits, RGB, the one compression, the one filter set, not interlaced
    chunk(&mut out, *b"IHDR", &header);
    chunk(&mut out, *b"sRGB", &[0]);
    write_texts(&mut out, texts);
    chunk(&mut out, *b"IDAT", &compress_to_vec_zlib(&filtered_rows(picture), 6));
    chunk(&mut out, *b"IEND", &[]);
    out
}

/// Puts texts into a finished PNG, behind its header; none if it is not one.
pub fn with_texts(picture: &[u8], texts: &[(&str, &str)]) -> Option<Vec<u8>> {
    let (header, _) = Chunks::of(picture)?.next().filter(|(kind, _)| kind == b"IHDR").map(|_| {
        // Signature, length, kind, thirteen bytes of header and the check.
        picture.split_at(SIGNATURE.len() + 4 + 4 + 13 + 4)
    })?;
    let mut out = header.to_vec();
    write_texts(&mut out, texts);
    out.extend(&picture[header.len()..]);
    Some(out)
}

/// The text of this keyword in a PNG; none if it has no such text, or is damaged before it.
pub fn text(picture: &[u8], keyword: &str) -> Option<String> {
    let mut texts = Chunks::of(picture)?.filter(|(kind, _)| kind == b"iTXt");
    texts.find_map(|(_, body)| {
        let rest = body.strip_prefix(keyword.as_bytes())?.strip_prefix(&[0])?;
        let [compressed, _method, rest @ ..] = rest else { return None };
        // What follows the language and the translated keyword, each with a zero behind it.
        let text = rest.splitn(3, |byte| *byte == 0).nth(2)?;
        let text = match compressed {
            0 => text.to_vec(),
            _ => decompress_to_vec_zlib_with_limit(text, MOST_TEXT).ok()?,
        };
        String::from_utf8(text).ok()
    })
}

/// The chunks of a PNG up to the first damaged one, its end, or the end of the bytes.
struct Chunks<'a>(&'a [u8]);

impl<'a> Chunks<'a> {
    fn of(picture: &'a [u8]) -> Option<Self> {
        picture.strip_prefix(SIGNATURE).map(Self)
    }
}

impl<'a> Iterator for Chunks<'a> {
    type Item = ([u8; 4], &'a [u8]);

    fn next(&mut self) -> Option<Self::Item> {
        let (length, rest) = self.0.split_first_chunk::<4>()?;
        let length = u32::from_be_bytes(*length) as usize;
        let (checked, rest) = rest.split_at_checked(length.checked_add(4)?)?;
        let (check, rest) = rest.split_first_chunk::<4>()?;
        let (kind, body) = checked.split_first_chunk::<4>()?;
        self.0 = rest;
        (crc32(checked) == u32::from_be_bytes(*check)).then_some((*kind, body))
    }
}

fn write_texts(out: &mut Vec<u8>, texts: &[(&str, &str)]) {
    for (keyword, text) in texts {
        let mut body = keyword.as_bytes().to_vec();
        body.extend([0, 0, 0, 0, 0]); // end of keyword, not compressed, method 0, no language, no translation
        body.extend(text.as_bytes());
        chunk(out, *b"iTXt", &body);
    }
}

/// Every row under filter 1 (difference from the pixel to the left), which suits smooth pictures.
fn filtered_rows(picture: &Pixmap) -> Vec<u8> {
    let mut rows = Vec::with_capacity(picture.height as usize * (1 + 3 * picture.width as usize));
    for row in picture.rgba.chunks_exact(picture.width as usize * 4) {
        rows.push(1);
        let mut left = [0u8; 3];
        for pixel in row.chunks_exact(4) {
            for channel in 0..3 {
                rows.push(pixel[channel].wrapping_sub(left[channel]));
                left[channel] = pixel[channel];
            }
        }
    }
    rows
}

fn chunk(out: &mut Vec<u8>, kind: [u8; 4], body: &[u8]) {
    let length = u32::try_from(body.len()).expect("a chunk of a picture is far below 4 GB");
    out.extend(length.to_be_bytes());
    let start = out.len();
    out.extend(kind);
    out.extend(body);
    let crc = crc32(&out[start..]);
    out.extend(crc.to_be_bytes());
}

/// The CRC of ISO/IEC 15948 annex D.
fn crc32(bytes: &[u8]) -> u32 {
    const TABLE: [u32; 256] = crc_table();
    !bytes.iter().fold(!0u32, |crc, byte| TABLE[((crc ^ u32::from(*byte)) & 255) as usize] ^ (crc >> 8))
}

const fn crc_table() -> [u32; 256] {
    let mut table = [0u32; 256];
    let mut n = 0;
    while n < 256 {
        let mut c = n as u32;
        let mut bit = 0;
        while bit < 8 {
            c = if c & 1 == 1 { 0xedb8_8320 ^ (c >> 1) } else { c >> 1 };
            bit += 1;
        }
        table[n] = c;
        n += 1;
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_crc_is_the_published_one() {
        // ISO 3309 / ITU-T V.42: the check value of CRC-32 over the digits 1 to 9.
        assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
    }

    #[test]
    fn texts_are_read_as_they_were_written() {
        let picture = Pixmap::filled(3, 2, [1, 2, 3]);
        let plain = encode(&picture, &[]);
        let texts = [(RECIPE_KEYWORD, "{ \"titre\": \"été\" }"), (SEED_KEYWORD, "41")];
        let at_once = encode(&picture, &texts);
        let put_in = with_texts(&plain, &texts).unwrap();
        for written in [&at_once, &put_in] {
            assert_eq!(text(written, SEED_KEYWORD).as_deref(), Some("41"));
            assert_eq!(text(written, RECIPE_KEYWORD).as_deref(), Some(texts[0].1));
        }
        assert_eq!(text(&plain, RECIPE_KEYWORD), None);
        assert_eq!(with_texts(b"GIF89a", &texts), None);
    }

    #[test]
    fn a_compressed_text_is_read_but_not_a_bomb() {
        let wrap = |bytes: &[u8]| {
            let mut out = encode(&Pixmap::filled(1, 1, [0; 3]), &[]);
            let mut body = SEED_KEYWORD.as_bytes().to_vec();
            body.extend([0, 1, 0, 0, 0]);
            body.extend(compress_to_vec_zlib(bytes, 6));
            chunk(&mut out, *b"iTXt", &body);
            out
        };
        assert_eq!(text(&wrap(b"41"), SEED_KEYWORD).as_deref(), Some("41"));
        assert_eq!(text(&wrap(&vec![b' '; 64 << 20]), SEED_KEYWORD), None);
    }

    #[test]
    fn a_damaged_picture_has_no_text() {
        let good = encode(&Pixmap::filled(3, 2, [1, 2, 3]), &[(SEED_KEYWORD, "41")]);
        for length in 0..70 {
            assert_eq!(text(&good[..length], SEED_KEYWORD), None, "{length} bytes");
        }
        let mut changed = good.clone();
        changed[60] ^= 1;
        assert_eq!(text(&changed, SEED_KEYWORD), None);
    }
}
