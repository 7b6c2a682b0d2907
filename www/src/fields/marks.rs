//! The graduations of a field's scale.

use super::scale::position;
use super::types::Field;
use dappledome::base::shown::{Lengths, Units};
use dappledome::recipe::limits::Limit;

/// A graduation of a scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where, 0 to 1.
    pub at: f64,
    /// What is written under it; nothing under a short one.
    pub label: String,
}

/// The graduations of a field.
pub fn marks(field: &Field, units: Units) -> Vec<Mark> {
    let scale = field.scale();
    if !field.words.is_empty() {
        return field
            .words
            .iter()
            .map(|(value, word)| Mark { at: position(&scale, *value), label: units.text(word) })
            .collect();
    }
    let on_scale = |value| field.unit.shown(value, units);
    let shown = Limit { least: on_scale(scale.least), most: on_scale(scale.most), ..scale };
    let mut values = if shown.by_ratio {
        by_ratio(&shown, units.lengths == Lengths::Inches)
    } else if field.unit.whole() && shown.most - shown.least <= 10.0 {
        (shown.least as i64..=shown.most as i64).map(|n| (n as f64, true)).collect()
    } else {
        evenly(&shown)
    };
    // The labels at the ends need room: the last one has the unit too.
    for (value, room) in [(shown.least, 0.13), (shown.most, 0.21)] {
        let at = position(&shown, value);
        values.retain(|(other, long)| !*long || (position(&shown, *other) - at).abs() > room);
        values.push((value, true));
    }
    values
        .into_iter()
        .map(|(value, long)| {
            let at = position(&shown, value);
            let label = match (long, at >= 1.0) {
                (false, _) => String::new(),
                (true, true) => field.unit.beyond().map_or_else(
                    || format!("{}{}", field.unit.number(value, units), field.unit.sign(units)),
                    Into::into,
                ),
                (true, false) => field.unit.number(value, units),
            };
            Mark { at, label }
        })
        .collect()
}

/// Long marks at round numbers, three to five of them, and short ones between.
fn evenly(shown: &Limit) -> Vec<(f64, bool)> {
    let span = shown.most - shown.least;
    let mut step = 0.01;
    for (at, candidate) in (0..).zip([2.0, 2.5, 2.0].into_iter().cycle()) {
        if span / step <= 4.5 || at > 24 {
            break;
        }
        step *= candidate;
    }
    let short = step / 5.0;
    let first = (shown.least / short).ceil() as i64;
    let last = (shown.most / short).floor() as i64;
    (first..=last).map(|n| (n as f64 * short, n % 5 == 0)).collect()
}

/// Long marks where the value doubles (or grows tenfold on a wide scale), from the least value on, or in inches at
/// halves, quarters and eighths.
fn by_ratio(shown: &Limit, inches: bool) -> Vec<(f64, bool)> {
    let growth = if shown.most / shown.least > 40.0 { 10.0 } else { 2.0 };
    let mut marks = Vec::new();
    let mut value = if inches { 1.0 } else { shown.least };
    while value / growth >= shown.least {
        value /= growth;
    }
    while value < shown.most * 1.001 {
        marks.push((value, true));
        value *= growth;
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::coat::{EVEN, PATCHES};
    use crate::fields::others::{BATCH, BLANK, SPONGE, SPONGE_DETAILS};
    use crate::words;
    use dappledome::base::shown::Heat;

    const METRIC: Units = Units { lengths: Lengths::Millimeters, heat: Heat::Celsius };
    const INCHES: Units = Units { lengths: Lengths::Inches, heat: Heat::Celsius };

    fn labels(field: &Field, units: Units) -> Vec<String> {
        let long = marks(field, units).into_iter().filter(|mark| !mark.label.is_empty());
        let mut long: Vec<Mark> = long.collect();
        long.sort_by(|a, b| a.at.total_cmp(&b.at));
        long.into_iter().map(|mark| mark.label).collect()
    }

    #[test]
    fn the_ends_of_a_scale_are_labeled_and_the_last_has_the_unit() {
        assert_eq!(labels(&BLANK[0], METRIC), ["50", "100", "200", "300", "400 mm"]);
        assert_eq!(labels(&BLANK[0], INCHES), ["1.97", "5", "10", "15.75 in"]);
        let rewet = SPONGE_DETAILS.iter().find(|field| field.label == "Re-wet every").unwrap();
        assert_eq!(labels(rewet, METRIC).last().unwrap(), words::NEVER);
        for field in [&BLANK[0], &PATCHES[1], &PATCHES[2], &SPONGE[1], &BATCH[0], &BATCH[1]] {
            for units in [METRIC, INCHES] {
                let marks = marks(field, units);
                let long: Vec<f64> =
                    marks.iter().filter(|mark| !mark.label.is_empty()).map(|mark| mark.at).collect();
                assert!(long.contains(&0.0) && long.contains(&1.0), "{}", field.label);
                let crowds = |at: &f64| (*at > 0.0 && *at <= 0.13) || (*at < 1.0 && *at >= 0.79);
                assert!(!long.iter().any(crowds), "{} crowds its ends: {long:?}", field.label);
                assert!(marks.iter().all(|mark| (0.0..=1.0).contains(&mark.at)), "{}", field.label);
            }
        }
    }

    #[test]
    fn bench_words_stand_where_their_values_do() {
        let scale = EVEN[0].scale();
        let marks = marks(&EVEN[0], METRIC);
        assert_eq!(marks[1], Mark { at: position(&scale, 0.15), label: "veil".into() });
        assert_eq!(marks.last(), Some(&Mark { at: 1.0, label: "3 mm".into() }));
        assert_eq!(labels(&EVEN[0], INCHES).last().unwrap(), "0.118 in");
    }

    #[test]
    fn marks_come_evenly_or_by_ratio() {
        let even = Limit { least: 0.0, most: 10.0, step: 1.0, usual: 0.0, by_ratio: false };
        let long = |marks: Vec<(f64, bool)>| -> Vec<f64> {
            marks
                .into_iter()
                .filter(|(_, long)| *long)
                .map(|(value, _)| (value * 1e6).round() / 1e6)
                .collect()
        };
        let marks = evenly(&even);
        assert_eq!(marks.len(), 11, "four short ones between two long ones");
        assert_eq!(long(marks), [0.0, 5.0, 10.0]);
        let narrow = Limit { least: 4.0, most: 64.0, by_ratio: true, ..even };
        assert_eq!(long(by_ratio(&narrow, false)), [4.0, 8.0, 16.0, 32.0, 64.0]);
        let wide = Limit { least: 0.03, most: 3.0, ..narrow };
        assert_eq!(long(by_ratio(&wide, false)), [0.03, 0.3, 3.0]);
        let inches = Limit { least: 0.16, most: 1.6, ..narrow };
        assert_eq!(long(by_ratio(&inches, true)), [0.25, 0.5, 1.0], "halves and quarters");
    }
}
