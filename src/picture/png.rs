//! Writing a picture as PNG (ISO/IEC 15948), with the recipe and the seed inside as text.

use super::pixmap::Pixmap;
use miniz_oxide::deflate::compress_to_vec_zlib;

/// The keyword of the text chunk that holds the recipe.
pub const RECIPE_KEYWORD: &str = "Dappledome recipe";
/// The keyword of the text chunk that holds the seed.
pub const SEED_KEYWORD: &str = "Dappledome seed";

/// Encodes a picture as 8-bit RGB, each text as an iTXt chunk of (keyword, UTF-8 text).
pub fn encode(picture: &Pixmap, texts: &[(&str, &str)]) -> Vec<u8> {
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    let mut header = Vec::with_capacity(13);
    header.extend(picture.width.to_be_bytes());
    header.extend(picture.height.to_be_bytes());
    header.extend([8, 2, 0, 0, 0]); // 8 bits, RGB, the one compression, the one filter set, not interlaced
    chunk(&mut out, *b"IHDR", &header);
    chunk(&mut out, *b"sRGB", &[0]);
    for (keyword, text) in texts {
        let mut body = keyword.as_bytes().to_vec();
        body.extend([0, 0, 0, 0, 0]); // end of keyword, not compressed, method 0, no language, no translation
        body.extend(text.as_bytes());
        chunk(&mut out, *b"iTXt", &body);
    }
    chunk(&mut out, *b"IDAT", &compress_to_vec_zlib(&filtered_rows(picture), 6));
    chunk(&mut out, *b"IEND", &[]);
    out
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
}
