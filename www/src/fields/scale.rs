//! The scale of a field: where a value stands on it, which value stands there, and its graduations.

use super::types::{Field, Unit};
use crate::words;
use dappledome::base::scalar;
use dappledome::base::shown::{Lengths, Units};
use dappledome::recipe::limits::Limit;

/// Where on its scale a value stands, 0 to 1.
pub fn position(limit: &Limit, value: f64) -> f64 {
    let share = if limit.by_ratio {
        scalar::ln(value.max(1e-6) / limit.least) / scalar::ln(limit.most / limit.least)
    } else {
        (value - limit.least) / (limit.most - limit.least)
    };
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

/// The value at a place on the scale, 0 to 1.
pub fn value_at(limit: &Limit, share: f64) -> f64 {
    let share = share.clamp(0.0, 1.0);
    if limit.by_ratio {
        limit.least * scalar::pow(limit.most / limit.least, share)
    } else {
        limit.least + share * (limit.most - limit.least)
    }
}

/// The nearest value within the range that is a whole number of `step`s from zero.
pub fn tidy(limit: &Limit, step: f64, value: f64) -> f64 {
    let stepped = (value.clamp(limit.least, limit.most) / step).round() * step;
    // Ten thousandths: the sum of many steps must not show as 0.30000000000000004 in a saved recipe.
    ((stepped * 1e4).round() / 1e4).clamp(limit.least, limit.most)
}

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
                (true, true) if field.unit == Unit::Rolls => words::NEVER.into(),
                (true, true) => format!("{}{}", field.unit.number(value, units), field.unit.sign(units)),
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
