//! Digits drawn into a picture, so that every piece on a tray says which seed it is.

use dappledome::picture::Pixmap;

/// The digits as three columns by five rows: one octal number per digit, a figure per row.
const DIGITS: [u16; 10] =
    [0o75557, 0o26227, 0o71747, 0o71717, 0o55711, 0o74717, 0o74757, 0o71111, 0o75757, 0o75717];
const INK: [u8; 3] = [40; 3];

/// Writes a number into the lower left corner, its dots larger in a larger picture.
pub fn write(picture: &mut Pixmap, number: &str) {
    let dot = (picture.width / 128).max(1);
    let ink = Pixmap::filled(dot, dot, INK);
    let top = picture.height.saturating_sub(7 * dot);
    for (place, digit) in (0u32..).zip(number.chars().filter_map(|letter| letter.to_digit(10))) {
        for at in 0..15u32 {
            if DIGITS[digit as usize] >> (14 - at) & 1 == 1 {
                picture.place(&ink, (2 + 4 * place + at % 3) * dot, top + at / 3 * dot);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_four_looks_like_a_four() {
        let mut picture = Pixmap::filled(16, 16, [255; 3]);
        write(&mut picture, "4");
        let row = |y| (2..5).map(|x| if picture.pixel(x, y) == INK { '#' } else { '.' }).collect::<String>();
        assert_eq!((9..14).map(row).collect::<Vec<_>>(), ["#.#", "#.#", "###", "..#", "..#"]);
    }
}
