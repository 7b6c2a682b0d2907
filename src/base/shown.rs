//! The units that a maker wants to see. The recipe stays in millimeters and °C; only what is shown and typed changes.

use super::units::{MM_PER_INCH, fixed, plain, short};

/// How lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lengths {
    /// In millimeters.
    #[default]
    Millimeters,
    /// In inches.
    Inches,
}

/// How temperatures are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Heat {
    /// In °C.
    #[default]
    Celsius,
    /// In °F.
    Fahrenheit,
}

/// The units of everything that is shown, and of what is typed without a unit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Of lengths.
    pub lengths: Lengths,
    /// Of temperatures.
    pub heat: Heat,
}

/// What a number in a text measures.
#[derive(Clone, Copy)]
enum Measure {
    Length,
    Heat,
    /// A temperature in a time: it has no zero to shift.
    HeatRate,
}

impl Units {
    /// A length in the shown unit.
    pub fn length(self, mm: f64) -> f64 {
        match self.lengths {
            Lengths::Millimeters => mm,
            Lengths::Inches => mm / MM_PER_INCH,
        }
    }

    /// A temperature in the shown unit.
    pub fn heat(self, celsius: f64) -> f64 {
        match self.heat {
            Heat::Celsius => celsius,
            Heat::Fahrenheit => celsius * 1.8 + 32.0,
        }
    }

    /// A length that is in the shown unit already, without the unit's name: inches as a rule has them, where they are a
    /// fraction of one down to a sixteenth (`1 1/2`), else in decimals.
    pub fn length_number(self, shown: f64) -> String {
        let fraction = if self.lengths == Lengths::Inches { sixteenths(shown) } else { None };
        fraction.unwrap_or_else(|| self.length_decimal(shown))
    }

    /// The same in decimals always: three below an inch, two above.
    pub fn length_decimal(self, shown: f64) -> String {
        if self.lengths == Lengths::Inches && shown.abs() < 0.9995 { short(shown, 3) } else { plain(shown) }
    }

    /// A length without the unit's name: in mm with so many decimals, in inches as [`Units::length_number`] has them.
    pub fn rounded_length(self, mm: f64, decimals: usize) -> String {
        match self.lengths {
            Lengths::Millimeters => fixed(mm, decimals),
            Lengths::Inches => self.length_number(self.length(mm)),
        }
    }

    /// The same with the unit's name.
    pub fn say_length(self, mm: f64, decimals: usize) -> String {
        format!("{} {}", self.rounded_length(mm, decimals), self.length_sign())
    }

    /// A temperature that is in the shown unit already, without the unit's name.
    pub fn heat_number(self, shown: f64) -> String {
        if self.heat == Heat::Fahrenheit { short(shown, 0) } else { plain(shown) }
    }

    /// The name of the unit of lengths.
    pub fn length_sign(self) -> &'static str {
        match self.lengths {
            Lengths::Millimeters => "mm",
            Lengths::Inches => "in",
        }
    }

    /// The name of the unit of temperatures.
    pub fn heat_sign(self) -> &'static str {
        match self.heat {
            Heat::Celsius => "°C",
            Heat::Fahrenheit => "°F",
        }
    }

    /// A text with every length in mm and every temperature in °C turned into the shown units, ranges included
    /// (`3 to 5.5 mm`, `160 × 48 mm`).
    pub fn text(self, text: &str) -> String {
        if self == Self::default() {
            return text.into();
        }
        let mut said = String::with_capacity(text.len());
        let mut rest = text;
        let mut begins = true;
        while let Some(letter) = rest.chars().next() {
            let number = if begins { leading_number(rest) } else { None };
            let Some((value, after)) = number else {
                said.push(letter);
                begins = !(letter.is_ascii_alphanumeric() || matches!(letter, '.' | ','));
                rest = &rest[letter.len_utf8()..];
                continue;
            };
            begins = false;
            match measure_after(after) {
                Some((measure, there)) => {
                    said.push_str(&self.number(value, measure));
                    rest = after;
                    if there > 0 {
                        said.push_str(&after[..after.len() - after.trim_start().len()]);
                        said.push_str(self.sign(measure));
                        rest = &after[there..];
                    }
                }
                None => {
                    said.push_str(&rest[..rest.len() - after.len()]);
                    rest = after;
                }
            }
        }
        said
    }

    fn number(self, value: f64, measure: Measure) -> String {
        match (measure, self.heat) {
            (Measure::Length, _) => self.length_number(self.length(value)),
            (Measure::HeatRate, Heat::Fahrenheit) => self.heat_number(value * 1.8),
            _ => self.heat_number(self.heat(value)),
        }
    }

    fn sign(self, measure: Measure) -> &'static str {
        match measure {
            Measure::Length => self.length_sign(),
            Measure::Heat | Measure::HeatRate => self.heat_sign(),
        }
    }
}

/// How far from a fraction a number of inches may be and still be one: what is lost where mm are written with two decimals.
const NEAR_A_FRACTION: f64 = 2.5e-4;

/// The longest length that is said in fractions, inches.
const MOST_IN_FRACTIONS: f64 = 1e6;

/// Inches as whole ones and a fraction down to a sixteenth, if they are that.
fn sixteenths(inches: f64) -> Option<String> {
    let all = (inches.abs() * 16.0).round();
    let near = (inches.abs() - all / 16.0).abs() <= NEAR_A_FRACTION;
    if !near || inches.abs() > MOST_IN_FRACTIONS {
        return None;
    }
    let (whole, part) = (all as u32 / 16, all as u32 % 16);
    let sign = if inches < 0.0 && all > 0.0 { "-" } else { "" };
    if part == 0 {
        return Some(format!("{sign}{whole}"));
    }
    let by = 1 << part.trailing_zeros();
    let fraction = format!("{}/{}", part / by, 16 / by);
    Some(if whole == 0 { format!("{sign}{fraction}") } else { format!("{sign}{whole} {fraction}") })
}

/// The number that a text begins with, and what follows it. Digits beyond the fifteenth do not matter.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let unsigned = text.strip_prefix(['-', '−']);
    let digits = unsigned.unwrap_or(text);
    let (whole, mut rest) = leading_digits(digits)?;
    let mut value = worth(whole);
    if let Some((decimals, after)) = rest.strip_prefix('.').and_then(leading_digits) {
        value += worth(decimals) / decimals.bytes().fold(1.0, |scale, _| scale * 10.0);
        rest = after;
    }
    Some((if unsigned.is_some() { -value } else { value }, rest))
}

fn leading_digits(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    (end > 0).then(|| text.split_at(end))
}

/// What digits are worth. The library's reading of numbers weighs more than everything else here.
fn worth(digits: &str) -> f64 {
    digits.bytes().fold(0.0, |value, digit| value * 10.0 + f64::from(digit - b'0'))
}

/// What a number measures, by what follows it, and how long that is; 0 if the unit stands behind the other end of a
/// range.
fn measure_after(text: &str) -> Option<(Measure, usize)> {
    let bare = text.strip_prefix([' ', '\u{a0}']).unwrap_or(text);
    let ends = |rest: &str| !rest.starts_with(|c: char| c.is_ascii_alphanumeric() || matches!(c, '²' | '³'));
    if let Some(rest) = bare.strip_prefix("mm").filter(|rest| ends(rest)) {
        return Some((Measure::Length, text.len() - rest.len()));
    }
    if let Some(rest) = bare.strip_prefix("°C").filter(|rest| ends(rest)) {
        let rate = ["/h", " an hour", " per hour"].iter().any(|time| rest.starts_with(time));
        return Some((if rate { Measure::HeatRate } else { Measure::Heat }, text.len() - rest.len()));
    }
    let other_end = [" to ", " and ", " × ", "–"].iter().find_map(|link| text.strip_prefix(link))?;
    let (_, after) = leading_number(other_end)?;
    measure_after(after).map(|(measure, _)| (measure, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    const AMERICAN: Units = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };

    #[test]
    fn every_length_and_temperature_of_a_text_is_turned() {
        for (text, turned) in [
            ("160 mm, white on clear", "6.3 in, white on clear"),
            ("148 mm across, 42.5 mm high", "5.83 in across, 1.67 in high"),
            ("patches on 34 %, 0.45 mm", "patches on 34 %, 0.018 in"),
            ("clear, 3 to 5.5 mm", "clear, 0.118 to 0.217 in"),
            ("148 × 42.5 mm", "5.83 × 1.67 in"),
            ("between 740 and 840 °C.", "between 1364 and 1544 °F."),
            ("790 °C for 10 min", "1454 °F for 10 min"),
            ("200 °C an hour to 790 °C", "360 °F an hour to 1454 °F"),
            ("moved -3 mm", "moved -0.118 in"),
            ("At 0.03 mm this lies", "At 0.001 in this lies"),
            ("25.4 mm (1 in), 0 mm", "1 in (1 in), 0 in"),
            ("A gap of 1.59 mm, 38.1 mm in", "A gap of 1/16 in, 1 1/2 in in"),
        ] {
            assert_eq!(AMERICAN.text(text), turned);
        }
    }

    #[test]
    fn inches_are_said_in_fractions_where_they_are_one() {
        for (inches, said) in [
            (0.25, "1/4"),
            (0.375, "3/8"),
            (1.5, "1 1/2"),
            (0.0625, "1/16"),
            (-2.9375, "-2 15/16"),
            (6.0, "6"),
            (0.0, "0"),
            (-0.0001, "0"),
            (0.999_9, "1"),
            (6.299_21, "6.3"),
            (0.018, "0.018"),
            (0.0635, "0.064"),
            (1.0 / 32.0, "0.031"),
            (1e9, "1000000000"),
            (f64::NAN, "–"),
            (f64::INFINITY, "inf"),
        ] {
            assert_eq!(AMERICAN.length_number(inches), said);
        }
        for n in 1..=400 {
            let inches = f64::from(n) / 16.0;
            // As it comes out of a recipe: typed values are kept to a thousandth of a mm, written ones to a hundredth.
            for per_mm in [1000.0, 100.0] {
                let mm = (inches * MM_PER_INCH * per_mm).round() / per_mm;
                assert_eq!(AMERICAN.length_number(AMERICAN.length(mm)), AMERICAN.length_number(inches));
            }
        }
        assert_eq!(Units::default().length_number(0.25), "0.25");
    }

    #[test]
    fn a_length_is_rounded_in_mm_only() {
        assert_eq!(Units::default().say_length(152.4, 0), "152 mm");
        assert_eq!(Units::default().say_length(42.0, 1), "42.0 mm");
        assert_eq!([152.4, 148.23].map(|mm| AMERICAN.say_length(mm, 0)), ["6 in", "5.84 in"]);
    }

    #[test]
    fn what_is_no_length_stays() {
        for text in
            ["12 mm² of it", "seed 41", "3 mmm", "A4mm", "2 discs and 3 pieces", "", "–", "°C", "1. mm"]
        {
            assert_eq!(AMERICAN.text(text), text);
        }
    }

    #[test]
    fn each_unit_is_chosen_by_itself() {
        let text = "160 mm at 790 °C";
        assert_eq!(Units::default().text(text), text);
        let inches = Units { lengths: Lengths::Inches, ..Units::default() };
        assert_eq!(inches.text(text), "6.3 in at 790 °C");
        let fahrenheit = Units { heat: Heat::Fahrenheit, ..Units::default() };
        assert_eq!(fahrenheit.text(text), "160 mm at 1454 °F");
    }
}
