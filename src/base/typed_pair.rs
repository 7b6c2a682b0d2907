//! Two lengths typed in one line: `150 x 40`, `6 × 1 1/2 in`, `150 mm by 1.5 in`.

use super::shown::Units;
use super::typed::{Kind, read};

/// What may stand between them.
const BETWEEN: [&str; 4] = ["×", "x", "*", "by"];

/// Reads two lengths, mm. The first one's unit is the second one's if it has none; the second one's, the shown one.
pub fn read_pair(text: &str, shown: Units) -> Option<(f64, f64)> {
    let text = text.to_lowercase();
    let (first, second) = BETWEEN.iter().find_map(|between| text.split_once(between))?;
    let unit = second.find(|c: char| c.is_alphabetic() || matches!(c, '"' | '″' | '”'));
    let first = if first.contains(|c: char| c.is_ascii_digit()) && is_bare(first) {
        format!("{first}{}", unit.map_or("", |at| &second[at..]))
    } else {
        first.into()
    };
    Some((read(&first, Kind::Length, shown)?, read(second, Kind::Length, shown)?))
}

/// Whether a number stands without its unit.
fn is_bare(text: &str) -> bool {
    text.trim_end().ends_with(|c: char| c.is_numeric() || matches!(c, '.' | ','))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::shown::{Heat, Lengths};

    const METRIC: Units = Units { lengths: Lengths::Millimeters, heat: Heat::Celsius };
    const AMERICAN: Units = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };

    #[test]
    fn two_lengths_are_read_in_either_unit() {
        for (text, shown, across, high) in [
            ("150 x 40", METRIC, 150.0, 40.0),
            ("150x40mm", METRIC, 150.0, 40.0),
            (" 150 × 40,5 ", METRIC, 150.0, 40.5),
            ("15 * 4 cm", METRIC, 150.0, 40.0),
            ("6 x 1 1/2 in", METRIC, 152.4, 38.1),
            ("6\" X 1.5\"", METRIC, 152.4, 38.1),
            ("6 by 1 1/2", AMERICAN, 152.4, 38.1),
            ("150 mm by 1 in", AMERICAN, 150.0, 25.4),
            ("150 x 40 mm", AMERICAN, 150.0, 40.0),
            ("150 mm x 1", AMERICAN, 150.0, 25.4),
        ] {
            let read = read_pair(text, shown);
            let near = |(a, h): (f64, f64)| (a - across).abs() < 1e-9 && (h - high).abs() < 1e-9;
            assert!(read.is_some_and(near), "{text} was read as {read:?}");
        }
    }

    #[test]
    fn anything_else_is_refused() {
        for text in
            ["", "150", "150 x", "x 40", "150 x 40 x 3", "wide x high", "150 g x 40", "150 x 40 g", "×", "by"]
        {
            assert_eq!(read_pair(text, METRIC), None, "{text}");
        }
    }
}
