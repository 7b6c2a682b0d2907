//! What a maker types into a value: a number alone, or with its unit, or with the other unit (`6 in`, `1450F`).

use super::shown::{Heat, Lengths, Units};
use super::units::MM_PER_INCH;

/// What a typed number measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length; read in mm.
    Length,
    /// A share of something; read as 0 to 1, written in percent.
    Share,
    /// A temperature; read in °C.
    Temperature,
    /// A time; read in minutes.
    Time,
    /// A mass; read in grams.
    Mass,
    /// An angle; read in degrees.
    Angle,
    /// A bare number: parts, pieces, passes.
    Number,
}

/// Reads what was typed, in the unit of its kind. A number without a unit is taken in the shown unit of lengths and
/// temperatures, or in percent, minutes, grams or degrees.
pub fn read(text: &str, kind: Kind, shown: Units) -> Option<f64> {
    if text.len() > 40 {
        return None;
    }
    let text = text.trim().to_ascii_lowercase();
    let (value, unit) = number(&text)?;
    let unit = unit.trim().trim_end_matches('.');
    match kind {
        Kind::Length => {
            let bare = if shown.lengths == Lengths::Inches { "in" } else { "mm" };
            Some(value * length_unit(if unit.is_empty() { bare } else { unit })?)
        }
        Kind::Share => matches!(unit, "" | "%" | "percent" | "per cent").then_some(value / 100.0),
        Kind::Temperature => match unit.trim_start_matches(['°', 'º']).trim_start() {
            "" if shown.heat == Heat::Fahrenheit => Some((value - 32.0) / 1.8),
            "" | "c" => Some(value),
            "f" => Some((value - 32.0) / 1.8),
            _ => None,
        },
        Kind::Time => time(value, unit),
        Kind::Mass => match unit {
            "" | "g" | "gram" | "grams" => Some(value),
            "oz" | "ounce" | "ounces" => Some(value * GRAMS_PER_OUNCE),
            _ => None,
        },
        Kind::Angle => matches!(unit, "" | "°" | "deg" | "degree" | "degrees").then_some(value),
        Kind::Number => unit.is_empty().then_some(value),
    }
}

/// Grams in one avoirdupois ounce, exactly.
const GRAMS_PER_OUNCE: f64 = 28.349523125;

fn length_unit(unit: &str) -> Option<f64> {
    Some(match unit {
        "mm" | "millimeter" | "millimeters" => 1.0,
        "cm" | "centimeter" | "centimeters" => 10.0,
        "in" | "inch" | "inches" | "\"" | "″" | "”" => MM_PER_INCH,
        _ => return None,
    })
}

/// `10`, `10 min`, `1 h`, `1 h 20`, `1 h 20 min`.
fn time(value: f64, unit: &str) -> Option<f64> {
    if matches!(unit, "" | "min" | "m" | "minute" | "minutes") {
        return Some(value);
    }
    let rest = ["hours", "hour", "h"].iter().find_map(|hour| unit.strip_prefix(hour))?.trim();
    if rest.is_empty() {
        return Some(value * 60.0);
    }
    let (minutes, unit) = number(rest)?;
    matches!(unit.trim(), "" | "min" | "m" | "minute" | "minutes").then_some(value * 60.0 + minutes)
}

/// A number at the start of the text (`0.45`, `0,45`, `1/2`, `1 1/2`, `-3`), and what follows it.
fn number(text: &str) -> Option<(f64, &str)> {
    let unsigned = text.strip_prefix(['-', '−']);
    let (whole, rest) = decimal(unsigned.unwrap_or(text).trim_start())?;
    let (value, rest) = if let Some((value, rest)) = fraction(whole, rest) {
        (value, rest)
    } else if let Some((part, rest)) =
        decimal(rest.trim_start()).and_then(|(over, rest)| fraction(over, rest))
    {
        (whole + part, rest)
    } else {
        (whole, rest)
    };
    Some((if unsigned.is_some() { -value } else { value }, rest))
}

fn fraction(over: f64, rest: &str) -> Option<(f64, &str)> {
    let (under, rest) = decimal(rest.trim_start().strip_prefix('/')?.trim_start())?;
    (under > 0.0).then(|| (over / under, rest))
}

/// Digits with at most one point or comma. Fifteen digits are exact in a double, and no maker needs more.
fn decimal(text: &str) -> Option<(f64, &str)> {
    let (mut digits, mut places, mut point, mut end) = (0u64, 0usize, false, 0);
    let mut count = 0;
    for (at, letter) in text.char_indices() {
        match letter {
            '0'..='9' if count < 15 => {
                digits = digits * 10 + u64::from(letter as u32 - '0' as u32);
                count += 1;
                places += usize::from(point);
            }
            '.' | ',' if !point => point = true,
            '0'..='9' => return None,
            _ => break,
        }
        end = at + letter.len_utf8();
    }
    let scale = (0..places).fold(1.0, |scale, _| scale * 10.0);
    (count > 0).then(|| (digits as f64 / scale, &text[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, kind: Kind) -> Option<f64> {
        super::read(text, kind, Units::default())
    }

    #[test]
    fn a_bare_number_is_in_the_shown_unit() {
        let shown = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };
        for (text, kind, value) in [
            ("6", Kind::Length, 152.4),
            ("1 1/2", Kind::Length, 38.1),
            ("152mm", Kind::Length, 152.0),
            ("1450", Kind::Temperature, 787.777_777_777),
            ("790 °C", Kind::Temperature, 790.0),
            ("2", Kind::Number, 2.0),
        ] {
            let read = super::read(text, kind, shown);
            assert!(read.is_some_and(|read| (read - value).abs() < 1e-6), "{text} was read as {read:?}");
        }
    }

    #[test]
    fn lengths_are_read_in_either_unit() {
        for (text, mm) in [
            ("152", 152.0),
            ("152mm", 152.0),
            (" 152 MM ", 152.0),
            ("6 in", 152.4),
            ("6in.", 152.4),
            ("6\"", 152.4),
            ("1 1/2 in", 38.1),
            ("1/2\"", 12.7),
            ("15,2 cm", 152.0),
            ("0.45", 0.45),
            (".5", 0.5),
            ("-3", -3.0),
            ("−3 mm", -3.0),
        ] {
            let read = read(text, Kind::Length);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text} was read as {read:?}");
        }
    }

    #[test]
    fn other_kinds_know_their_units() {
        for (text, kind, value) in [
            ("34 %", Kind::Share, 0.34),
            ("34", Kind::Share, 0.34),
            ("1450F", Kind::Temperature, 787.777_777_777),
            ("790 °C", Kind::Temperature, 790.0),
            ("1 h 20", Kind::Time, 80.0),
            ("1 hour", Kind::Time, 60.0),
            ("10 min", Kind::Time, 10.0),
            ("1 oz", Kind::Mass, 28.349_523),
            ("20°", Kind::Angle, 20.0),
            ("2.5", Kind::Number, 2.5),
        ] {
            let read = read(text, kind);
            assert!(read.is_some_and(|read| (read - value).abs() < 1e-5), "{text} was read as {read:?}");
        }
    }

    #[test]
    fn what_is_not_such_a_number_is_refused() {
        for text in
            ["", "in", "six", "1e9", "6 ft", "1/0", "1..2", "NaN", "12 34", "9999999999999999999", "½½"]
        {
            assert_eq!(read(text, Kind::Length), None, "{text}");
        }
        assert_eq!(read("34 mm", Kind::Share), None);
        assert_eq!(read("3 pieces", Kind::Number), None);
    }
}
