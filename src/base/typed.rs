//! What a maker types into a value: a number alone, or with its unit, or with the other unit (`6 in`, `1450F`), and with
//! the fractions that a rule has (`6-1/2 in`, `6½"`).

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
    /// A temperature in a time; read in K/h.
    HeatRate,
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
        Kind::Length => length(value, unit, shown.lengths),
        Kind::Share => matches!(unit, "" | "%" | "percent" | "per cent").then_some(value / 100.0),
        Kind::Temperature => match unit.trim_start_matches(['°', 'º']).trim_start() {
            "" if shown.heat == Heat::Fahrenheit => Some((value - 32.0) / 1.8),
            "" | "c" => Some(value),
            "f" => Some((value - 32.0) / 1.8),
            _ => None,
        },
        Kind::HeatRate => heat_rate(value, unit, shown.heat),
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

/// Inches in a foot.
const INCHES_PER_FOOT: f64 = 12.0;

/// `152 mm`, `15.2 cm`, `6 in`, `6"`, `1'`, `1 ft`, `1' 2 1/2"`.
fn length(value: f64, unit: &str, shown: Lengths) -> Option<f64> {
    Some(match unit {
        "" if shown == Lengths::Millimeters => value,
        "mm" | "millimeter" | "millimeters" => value,
        "cm" | "centimeter" | "centimeters" => value * 10.0,
        unit if unit.is_empty() || inches(unit) => value * MM_PER_INCH,
        unit => {
            let rest =
                ["feet", "foot", "ft", "'", "′", "’"].iter().find_map(|foot| unit.strip_prefix(foot))?;
            (value * INCHES_PER_FOOT + second(rest.trim_start_matches('.'), inches)?) * MM_PER_INCH
        }
    })
}

fn inches(unit: &str) -> bool {
    matches!(unit, "in" | "inch" | "inches" | "\"" | "″" | "”" | "''")
}

/// `150`, `150/h`, `150 K/h`, `150 °C/h`, `270 °F/h`, `150 °C an hour`: a difference, which has no zero to shift.
fn heat_rate(value: f64, unit: &str, shown: Heat) -> Option<f64> {
    let times = ["/h", "/hour", "per hour", "an hour"];
    let degrees = times.iter().find_map(|time| unit.strip_suffix(time)).unwrap_or(unit);
    match degrees.trim().trim_start_matches(['°', 'º']).trim_start() {
        "" if shown == Heat::Fahrenheit => Some(value / 1.8),
        "" | "c" | "k" => Some(value),
        "f" => Some(value / 1.8),
        _ => None,
    }
}

/// `10`, `10 min`, `1 h`, `1 h 20`, `1 h 20 min`, `1:20`.
fn time(value: f64, unit: &str) -> Option<f64> {
    let minutes = |unit: &str| matches!(unit, "min" | "m" | "minute" | "minutes");
    if unit.is_empty() || minutes(unit) {
        return Some(value);
    }
    let rest = ["hours", "hour", "h", ":"].iter().find_map(|hour| unit.strip_prefix(hour))?;
    Some(value * 60.0 + second(rest, minutes)?)
}

/// What follows a number of feet or hours: nothing, or the smaller number, with or without its unit.
fn second(rest: &str, unit_is_known: impl Fn(&str) -> bool) -> Option<f64> {
    let rest = rest.trim();
    if rest.is_empty() {
        return Some(0.0);
    }
    let (value, unit) = number(rest)?;
    let unit = unit.trim();
    (unit.is_empty() || unit_is_known(unit)).then_some(value)
}

/// A number at the start of the text (`0.45`, `0,45`, `1/2`, `1 1/2`, `1-1/2`, `1½`, `-3`), and what follows it.
fn number(text: &str) -> Option<(f64, &str)> {
    let unsigned = text.strip_prefix(['-', '−']);
    let (value, rest) = unsigned_number(unsigned.unwrap_or(text).trim_start())?;
    Some((if unsigned.is_some() { -value } else { value }, rest))
}

fn unsigned_number(text: &str) -> Option<(f64, &str)> {
    if let Some(alone) = fraction(text) {
        return Some(alone);
    }
    let (whole, rest) = decimal(text)?;
    let part = rest.strip_prefix(['-', '‐', '‑', '–']).unwrap_or_else(|| rest.trim_start());
    Some(fraction(part).map_or((whole, rest), |(part, rest)| (whole + part, rest)))
}

/// A fraction at the start of the text (`1/2`, `½`), and what follows it.
fn fraction(text: &str) -> Option<(f64, &str)> {
    if let Some(one) = FRACTIONS.iter().find_map(|(sign, value)| Some((*value, text.strip_prefix(*sign)?))) {
        return Some(one);
    }
    let (over, rest) = decimal(text)?;
    let (under, rest) = decimal(rest.trim_start().strip_prefix(['/', '⁄'])?.trim_start())?;
    (under > 0.0).then(|| (over / under, rest))
}

/// Fractions that are one letter.
const FRACTIONS: [(char, f64); 9] = [
    ('½', 0.5),
    ('¼', 0.25),
    ('¾', 0.75),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
];

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
            ("270", Kind::HeatRate, 150.0),
            ("150 K/h", Kind::HeatRate, 150.0),
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
            ("6½ in", 165.1),
            ("6 ½\"", 165.1),
            ("6-1/2 in", 165.1),
            ("6-½ in", 165.1),
            ("6 1⁄2″", 165.1),
            ("¾ in", 19.05),
            ("-1/4 in", -6.35),
            ("6''", 152.4),
            ("1'", 304.8),
            ("1 ft.", 304.8),
            ("1' 2 1/2\"", 368.3),
            ("1 foot 2", 355.6),
            ("0,4", 0.4),
            (",4", 0.4),
            ("0,4 in", 10.16),
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
            ("1:20", Kind::Time, 80.0),
            ("0:05", Kind::Time, 5.0),
            ("1 h 20 min", Kind::Time, 80.0),
            ("1½ h", Kind::Time, 90.0),
            ("0,4", Kind::Share, 0.004),
            ("0,4", Kind::Number, 0.4),
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
        for text in [
            "",
            "in",
            "six",
            "1e9",
            "1:20",
            "6-",
            "6 - 1/2",
            "1' 2 mm",
            "1/0",
            "1..2",
            "NaN",
            "12 34",
            "9999999999999999999",
            "½½",
        ] {
            assert_eq!(read(text, Kind::Length), None, "{text}");
        }
        assert_eq!(read("34 mm", Kind::Share), None);
        assert_eq!([read("1:20:30", Kind::Time), read("1:", Kind::Number)], [None; 2]);
        assert_eq!(read("3 pieces", Kind::Number), None);
    }
}
