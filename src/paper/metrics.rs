//! How wide letters are: the advance widths of Liberation Sans, which are those of Arial and Helvetica, so that a page that is drawn by a
//! browser with either of them is the page that is printed from the font's own file.

use super::sheet::Face;

/// Units of the tables to one em.
const UNITS: f64 = 2048.0;
/// Letters that are in no table are taken to be as wide as the widest of the font, so that nothing is ever wider than it is reckoned.
const WIDEST: u16 = 2740;
/// Millimeters in a point, 1/72 in.
pub const POINT: f64 = 25.4 / 72.0;
/// From the line to the top of a capital, in sizes: 1409 of 2048 units.
pub const CAPITAL: f64 = 0.688;
/// From the line to the top of the tallest letter, and down to the bottom of the deepest, in sizes.
pub const REACH: (f64, f64) = (0.74, 0.21);

/// Letters beyond the first two tables.
const MORE: [char; 8] = ['–', '—', '‘', '’', '“', '”', '…', '−'];

const REGULAR: Widths = Widths {
    ascii: [
        569, 569, 727, 1139, 1139, 1821, 1366, 391, 682, 682, 797, 1196, 569, 682, 569, 569, 1139, 1139,
        1139, 1139, 1139, 1139, 1139, 1139, 1139, 1139, 569, 569, 1196, 1196, 1196, 1139, 2079, 1366, 1366,
        1479, 1479, 1366, 1251, 1593, 1479, 569, 1024, 1366, 1139, 1706, 1479, 1593, 1366, 1593, 1479, 1366,
        1251, 1479, 1366, 1933, 1366, 1366, 1251, 569, 569, 569, 961, 1139, 682, 1139, 1139, 1024, 1139,
        1139, 569, 1139, 1139, 455, 455, 1024, 455, 1706, 1139, 1139, 1139, 1139, 682, 1024, 569, 1139, 1024,
        1479, 1024, 1024, 1024, 684, 532, 684, 1196,
    ],
    latin: [
        569, 682, 1139, 1139, 1139, 1139, 532, 1139, 682, 1509, 758, 1139, 1196, 682, 1509, 1131, 819, 1124,
        682, 682, 682, 1180, 1100, 682, 682, 682, 748, 1139, 1708, 1708, 1708, 1251, 1366, 1366, 1366, 1366,
        1366, 1366, 2048, 1479, 1366, 1366, 1366, 1366, 569, 569, 569, 569, 1479, 1479, 1593, 1593, 1593,
        1593, 1593, 1196, 1593, 1479, 1479, 1479, 1479, 1366, 1366, 1251, 1139, 1139, 1139, 1139, 1139, 1139,
        1821, 1024, 1139, 1139, 1139, 1139, 569, 569, 569, 569, 1139, 1139, 1139, 1139, 1139, 1139, 1139,
        1124, 1251, 1139, 1139, 1139, 1139, 1024, 1139, 1024,
    ],
    more: [1139, 2048, 455, 455, 682, 682, 2048, 1196],
};

const BOLD: Widths = Widths {
    ascii: [
        569, 682, 971, 1139, 1139, 1821, 1479, 487, 682, 682, 797, 1196, 569, 682, 569, 569, 1139, 1139,
        1139, 1139, 1139, 1139, 1139, 1139, 1139, 1139, 682, 682, 1196, 1196, 1196, 1251, 1997, 1479, 1479,
        1479, 1479, 1366, 1251, 1593, 1479, 569, 1139, 1479, 1251, 1706, 1479, 1593, 1366, 1593, 1479, 1366,
        1251, 1479, 1366, 1933, 1366, 1366, 1251, 682, 569, 682, 1196, 1139, 682, 1139, 1251, 1139, 1251,
        1139, 682, 1251, 1251, 569, 569, 1139, 569, 1821, 1251, 1251, 1251, 1251, 797, 1139, 682, 1251, 1139,
        1593, 1139, 1139, 1024, 797, 573, 797, 1196,
    ],
    latin: [
        569, 682, 1139, 1139, 1139, 1139, 573, 1139, 682, 1509, 758, 1139, 1196, 682, 1509, 1131, 819, 1124,
        682, 682, 682, 1180, 1139, 682, 682, 682, 748, 1139, 1708, 1708, 1708, 1251, 1479, 1479, 1479, 1479,
        1479, 1479, 2048, 1479, 1366, 1366, 1366, 1366, 569, 569, 569, 569, 1479, 1479, 1593, 1593, 1593,
        1593, 1593, 1196, 1593, 1479, 1479, 1479, 1479, 1366, 1366, 1251, 1139, 1139, 1139, 1139, 1139, 1139,
        1821, 1139, 1139, 1139, 1139, 1139, 569, 569, 569, 569, 1251, 1251, 1251, 1251, 1251, 1251, 1251,
        1124, 1251, 1251, 1251, 1251, 1251, 1139, 1251, 1139,
    ],
    more: [1139, 2048, 569, 569, 1024, 1024, 2048, 1196],
};

struct Widths {
    /// From the space to the tilde.
    ascii: [u16; 95],
    /// From the space that does not break to ÿ.
    latin: [u16; 96],
    /// Of [`MORE`].
    more: [u16; MORE.len()],
}

/// The advance of a letter, in sizes.
pub fn advance(letter: char, face: Face) -> f64 {
    let widths = match face {
        Face::Regular => &REGULAR,
        Face::Bold => &BOLD,
    };
    let at = u32::from(letter) as usize;
    let units = match at {
        0x20..0x7f => widths.ascii[at - 0x20],
        0xa0..0x100 => widths.latin[at - 0xa0],
        _ => MORE.iter().position(|more| *more == letter).map_or(WIDEST, |at| widths.more[at]),
    };
    f64::from(units) / UNITS
}

/// Width of words of a size in points, mm.
pub fn width(words: &str, face: Face, size: f64) -> f64 {
    words.chars().map(|letter| advance(letter, face)).sum::<f64>() * size * POINT
}
