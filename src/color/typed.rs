//! A color as a maker types it: `#9A5F4C`, `9a5f4c`, `154 95 76`, `rgb(154, 95, 76)`, `Lab 46 22 21`.

use super::difference::{Lab, to_lab};
use super::srgb::decode;
use std::fmt;

/// A color that was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Typed {
    /// 8-bit sRGB.
    Srgb([u8; 3]),
    /// CIE L*a*b* under D65.
    Lab(Lab),
}

impl Typed {
    /// The color as L*a*b*, the white of sRGB being 100.
    pub fn lab(self) -> Lab {
        match self {
            Self::Srgb(codes) => to_lab(decode(codes)),
            Self::Lab(lab) => lab,
        }
    }
}

/// Why what was typed is no color.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Not one of the ways to write a color.
    Form,
    /// A `#` without three or six digits 0 to F behind it.
    Hex,
    /// A red, green or blue that is not a whole number from 0 to 255.
    Code,
    /// L* outside 0 to 100, or a* or b* outside -150 to 150.
    Lab,
}

impl fmt::Display for Unread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Form => "This is no color. Type it as #9A5F4C, 154 95 76 or Lab 46 22 21.",
            Self::Hex => "A color behind # has six digits, 0 to 9 and A to F. Type it as #9A5F4C.",
            Self::Code => "Red, green and blue are whole numbers from 0 to 255. Type them as 154 95 76.",
            Self::Lab => "In Lab, L goes from 0 to 100, a and b from -150 to 150. Type it as Lab 46 22 21.",
        })
    }
}

/// Reads a color that was typed.
///
/// # Errors
/// Why it is none, with the way to write it.
pub fn read(text: &str) -> Result<Typed, Unread> {
    let text = text.trim().to_ascii_lowercase();
    if text.len() > 60 {
        return Err(Unread::Form);
    }
    if let Some(digits) = text.strip_prefix('#') {
        return hex(digits).map(Typed::Srgb).ok_or(Unread::Hex);
    }
    if let Some(codes) = (text.len() == 6).then(|| hex(&text)).flatten() {
        return Ok(Typed::Srgb(codes));
    }
    let (in_lab, numbers) = match (text.strip_prefix("lab"), text.strip_prefix("rgb")) {
        (Some(numbers), _) => (true, numbers),
        (_, Some(numbers)) => (false, numbers),
        _ => (false, text.as_str()),
    };
    let numbers = numbers.trim().trim_start_matches([':', '(']).trim_end_matches(')');
    let numbers = three(numbers).ok_or(Unread::Form)?;
    if in_lab { lab(numbers).ok_or(Unread::Lab) } else { codes(numbers).ok_or(Unread::Code) }
}

/// `9a5f4c`, or `95c` for `9955cc`.
fn hex(digits: &str) -> Option<[u8; 3]> {
    let digits: Vec<u8> =
        digits.chars().map(|digit| digit.to_digit(16).map(|digit| digit as u8)).collect::<Option<_>>()?;
    match digits[..] {
        [r, g, b] => Some([17 * r, 17 * g, 17 * b]),
        [a, b, c, d, e, f] => Some([16 * a + b, 16 * c + d, 16 * e + f]),
        _ => None,
    }
}

/// Three numbers with blanks, commas or semicolons between them; with blanks or semicolons, a comma within is a decimal one.
fn three(text: &str) -> Option<[f64; 3]> {
    let of = |between: fn(char) -> bool| {
        let parts = text.split(between).map(str::trim).filter(|part| !part.is_empty());
        let numbers: Option<Vec<f64>> = parts.map(number).collect();
        numbers?.try_into().ok()
    };
    of(|c| c.is_whitespace() || c == ';').or_else(|| of(|c| c == ','))
}

fn number(text: &str) -> Option<f64> {
    let text = text.trim_end_matches(',').replace(',', ".").replace('−', "-");
    let plain = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    plain.then(|| text.parse().ok()).flatten()
}

fn codes(numbers: [f64; 3]) -> Option<Typed> {
    let whole = numbers.iter().all(|code| (0.0..=255.0).contains(code) && code.fract() == 0.0);
    whole.then(|| Typed::Srgb(numbers.map(|code| code as u8)))
}

fn lab([l, a, b]: [f64; 3]) -> Option<Typed> {
    let within = (0.0..=100.0).contains(&l) && [a, b].iter().all(|x| (-150.0..=150.0).contains(x));
    within.then_some(Typed::Lab([l, a, b]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_color_is_read_however_it_is_written() {
        let brown = Ok(Typed::Srgb([154, 95, 76]));
        for text in
            ["#9A5F4C", "9a5f4c", " #9a5f4c ", "154 95 76", "154,95,76", "154, 95, 76", "rgb(154, 95, 76)"]
        {
            assert_eq!(read(text), brown, "{text}");
        }
        assert_eq!(read("#95c"), Ok(Typed::Srgb([0x99, 0x55, 0xcc])));
        assert_eq!(read("154095"), Ok(Typed::Srgb([0x15, 0x40, 0x95])), "six digits are always hexadecimal");
        for text in ["Lab 46 22 21", "lab(46, 22, 21)", "LAB: 46; 22; 21", "lab 46,0 22,0 21,0"] {
            assert_eq!(read(text), Ok(Typed::Lab([46.0, 22.0, 21.0])), "{text}");
        }
        assert_eq!(read("Lab 46.5 −22.25 21"), Ok(Typed::Lab([46.5, -22.25, 21.0])));
    }

    #[test]
    fn what_is_no_color_says_why() {
        for (text, why) in [
            ("", Unread::Form),
            ("brick", Unread::Form),
            ("154 95", Unread::Form),
            ("1 2 3 4", Unread::Form),
            ("nan nan nan", Unread::Form),
            ("inf 0 0", Unread::Form),
            ("Lab", Unread::Form),
            ("#9a5f4", Unread::Hex),
            ("#9a5f4g", Unread::Hex),
            ("#ä5f4c", Unread::Hex),
            ("256 0 0", Unread::Code),
            ("-1 0 0", Unread::Code),
            ("0.5 0 0", Unread::Code),
            ("Lab 101 0 0", Unread::Lab),
            ("Lab 50 200 0", Unread::Lab),
            (&"9".repeat(99), Unread::Form),
        ] {
            assert_eq!(read(text), Err(why), "{text}");
        }
        assert!(Unread::Hex.to_string().contains("#9A5F4C"));
    }

    /// L*a*b* of sRGB red: own arithmetic on IEC 61966-2-1 and CIE 15 (as in `tests/published/color.rs`), and black and white.
    #[test]
    fn codes_have_their_lab() {
        for (text, want) in
            [("#ff0000", [53.2371, 80.0901, 67.2033]), ("#000", [0.0; 3]), ("255 255 255", [100.0, 0.0, 0.0])]
        {
            let got = read(text).unwrap().lab();
            assert!((0..3).all(|i| (got[i] - want[i]).abs() < 2e-3), "{text}: {got:?}, not {want:?}");
        }
    }
}
