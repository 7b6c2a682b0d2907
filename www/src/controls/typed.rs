//! What was meant by a value that was typed, and what is said of it.

use crate::fields::scale::tidy;
use crate::fields::types::Unit;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::typed::{self, Kind};
use dappledome::recipe::limits::Limit;

/// An end of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// The least.
    Least,
    /// The most.
    Most,
}

/// A value that was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typed {
    /// The value, within its range.
    pub value: f64,
    /// The end of the range that it was kept at, if what was typed lies beyond it.
    pub beyond: Option<End>,
}

impl Typed {
    fn within(value: f64) -> Self {
        Self { value, beyond: None }
    }
}

/// The value that was typed; none if it is not understood. `now` is what stands there, and how it is written: what was not
/// changed stays what it was, however coarsely the shown unit writes it.
pub fn understood(unit: Unit, limit: &Limit, text: &str, now: (f64, &str), units: Units) -> Option<Typed> {
    if text == now.1 {
        return Some(Typed::within(now.0));
    }
    if unit.beyond().is_some_and(|word| text.trim().eq_ignore_ascii_case(word)) {
        return Some(Typed::within(limit.most));
    }
    let meant = typed::read(without_sign(unit, text, units), unit.kind(), units)?;
    let meant = if unit == Unit::Spoon { meant / unit.factor() } else { meant };
    // A clock's hour may go without its minutes.
    let hour = unit == Unit::Clock && meant <= 24.0 && text.bytes().all(|letter| letter.is_ascii_digit());
    let meant = if hour { meant * 60.0 } else { meant };
    let meant = if unit.whole() { meant.round() } else { meant };
    let value = tidy(limit, if unit.whole() { 1.0 } else { 1e-3 }, meant);
    // An end that is written more coarsely than it is can be typed as it is written.
    let beyond = unit.decimal(meant, units) != unit.decimal(value, units);
    let end = if meant < value { End::Least } else { End::Most };
    Some(Typed { value, beyond: (beyond && !limit.holds(meant)).then_some(end) })
}

/// The number of what has no unit but its own, such as kilowatts.
fn without_sign(unit: Unit, text: &str, units: Units) -> &str {
    let text = text.trim();
    let sign = unit.sign(units);
    let sign = sign.trim();
    let begins = text.len().saturating_sub(sign.len());
    match text.split_at_checked(begins) {
        Some((number, end)) if unit.kind() == Kind::Number && end.eq_ignore_ascii_case(sign) => number,
        _ => text,
    }
}

/// That a value was kept at an end of its range.
pub fn kept_at(unit: Unit, limit: &Limit, end: End, units: Units) -> String {
    let said = |value| unit.say_plainly(value, limit, units);
    let kind = unit.kind();
    match end {
        End::Least => words::kept_at_smallest(kind, &said(limit.least)),
        // Beyond the last number there may be only a word.
        End::Most => match unit.beyond() {
            Some(word) => words::kept_at_largest(kind, &said(limit.most - limit.step), word),
            None => words::kept_at_largest(kind, &said(limit.most), &said(limit.most)),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::coat::PATCHES;
    use crate::fields::firings::FUSE;
    use crate::fields::others::{BATCH, BATCH_DETAILS, BLANK, SPONGE_DETAILS};
    use crate::fields::types::Field;
    use dappledome::base::shown::{Heat, Lengths};
    use dappledome::recipe::limits;

    const METRIC: Units = Units { lengths: Lengths::Millimeters, heat: Heat::Celsius };
    const AMERICAN: Units = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };

    fn typed(field: &Field, text: &str, units: Units) -> Option<f64> {
        understood(field.unit, &field.thumbs[0].limit, text, (0.0, "as it is shown"), units)
            .map(|typed| typed.value)
    }

    fn beyond(field: &Field, text: &str, units: Units) -> Option<End> {
        understood(field.unit, &field.thumbs[0].limit, text, (0.0, "as it is shown"), units)
            .expect(text)
            .beyond
    }

    #[test]
    fn a_number_is_taken_in_the_shown_unit_unless_it_has_one() {
        assert_eq!(typed(&BLANK[0], "152", METRIC), Some(152.0));
        assert_eq!(typed(&BLANK[0], "6", AMERICAN), Some(152.4));
        assert_eq!(typed(&BLANK[0], "6 in", METRIC), Some(152.4));
        assert_eq!(typed(&FUSE[0], "1450", AMERICAN), Some(787.778));
        assert_eq!(typed(&FUSE[1], "1 h", METRIC), Some(60.0));
        assert_eq!(typed(&PATCHES[1], "34 %", METRIC), Some(0.34));
    }

    #[test]
    fn it_is_brought_into_its_range_and_made_whole() {
        assert_eq!(typed(&BLANK[0], "9999", METRIC), Some(400.0));
        assert_eq!(typed(&BATCH[0], "2.6", METRIC), Some(3.0));
        assert_eq!(typed(&PATCHES[0], "0.12345", METRIC), Some(0.123));
    }

    #[test]
    fn it_is_noticed_when_it_was_kept_at_an_end() {
        let rewet = SPONGE_DETAILS.iter().find(|field| field.unit == Unit::Rolls).unwrap();
        for (field, text, units, end) in [
            (&BLANK[0], "-3", METRIC, Some(End::Least)),
            (&BLANK[0], "0,4", METRIC, Some(End::Least)),
            (&BLANK[0], "150 cm", METRIC, Some(End::Most)),
            (&BLANK[0], "6'", AMERICAN, Some(End::Most)),
            (&FUSE[1], "1:20", METRIC, Some(End::Most)),
            (&BATCH[0], "0.4", METRIC, Some(End::Least)),
            (rewet, "90", METRIC, Some(End::Most)),
            (&BLANK[0], "50", METRIC, None),
            (&BLANK[0], "1.97", AMERICAN, None),
            (&BLANK[0], "15.75", AMERICAN, None),
            (&BATCH[0], "0.6", METRIC, None),
            (rewet, "never", METRIC, None),
        ] {
            assert_eq!(beyond(field, text, units), end, "{text}");
        }
    }

    #[test]
    fn a_spoon_is_weighed_and_rolls_may_be_never() {
        assert_eq!(typed(&BATCH_DETAILS[0], "5 g", METRIC), Some(0.4), "of 12.5 g if it were solid");
        let rewet = SPONGE_DETAILS.iter().find(|field| field.unit == Unit::Rolls).unwrap();
        assert_eq!(typed(rewet, " Never", METRIC), Some(rewet.thumbs[0].limit.most));
        assert_eq!(typed(&BATCH[0], "never", METRIC), None);
    }

    #[test]
    fn what_was_not_changed_stays_however_coarsely_it_is_written() {
        let exact = 152.347;
        let shown = BLANK[0].say(0, exact, AMERICAN);
        let typed = |text| understood(Unit::Across, &limits::DISC, text, (exact, &shown), AMERICAN);
        assert_eq!(typed(&shown), Some(Typed::within(exact)));
        assert_eq!(typed("6 in"), Some(Typed::within(152.4)));
    }

    #[test]
    fn nonsense_is_not_understood() {
        for text in ["", "wide", "6 g", "12 mm mm", "1/0"] {
            assert_eq!(typed(&BLANK[0], text, METRIC), None, "{text}");
        }
    }

    #[test]
    fn the_end_that_a_value_is_kept_at_is_said_in_the_shown_unit() {
        let metric = Units::default();
        let american = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };
        for (unit, limit, end, units, said) in [
            (Unit::Across, limits::DISC, End::Least, metric, "Smallest is 50 mm: kept at 50 mm."),
            (Unit::Mm, limits::DISC, End::Most, american, "Largest is 15.75 in: kept at 15.75 in."),
            (Unit::Celsius, limits::FUSE_TOP, End::Most, american, "Highest is 1544 °F: kept at 1544 °F."),
            (Unit::Minutes, limits::FUSE_HOLD, End::Most, metric, "Longest is 1 h 00: kept at 1 h 00."),
            (Unit::Pull, limits::TOWARD_RIM, End::Least, metric, "Smallest is -100 %: kept at -100 %."),
            (Unit::Rolls, limits::REWET, End::Least, metric, "Smallest is 1 roll: kept at 1 roll."),
        ] {
            assert_eq!(kept_at(unit, &limit, end, units), said);
        }
        let rolls = Limit { most: 41.0, ..limits::REWET };
        let said = kept_at(Unit::Rolls, &rolls, End::Most, metric);
        assert_eq!(said, "Largest is 40 rolls: kept at never.");
    }

    #[test]
    fn what_has_a_word_beyond_its_most_is_kept_there() {
        let hold = Limit { most: 121.0, ..limits::SLUMP_HOLD };
        assert_eq!(kept_at(Unit::Settling, &hold, End::Most, METRIC), "Longest is 2 h 00: kept at full.");
        assert_eq!(
            understood(Unit::Settling, &hold, "Full", (9.0, "9 min"), METRIC),
            Some(Typed::within(121.0))
        );
    }

    #[test]
    fn a_rate_has_no_zero_to_shift() {
        let rate =
            |text, units| understood(Unit::Rate, &limits::RATE, text, (0.0, "–"), units).map(|it| it.value);
        for text in ["150", "150/h", "150 K/h", "150 °C/h", "150 c per hour", "270 °F/h"] {
            assert_eq!(rate(text, METRIC), Some(150.0), "{text}");
        }
        assert_eq!(rate("270", AMERICAN), Some(150.0));
        assert_eq!([rate("150 min", METRIC), rate("fast", METRIC)], [None; 2]);
        assert_eq!(Unit::Rate.say(150.0, &limits::RATE, AMERICAN), "270 °F/h");
    }

    #[test]
    fn an_hour_of_the_clock_may_go_without_its_minutes() {
        let day = Limit { least: 0.0, most: 1439.0, step: 15.0, usual: 1080.0, by_ratio: false };
        let read = |text| understood(Unit::Clock, &day, text, (0.0, "–"), METRIC).map(|it| it.value);
        assert_eq!(["18:00", "18", "7:30"].map(read), [Some(1080.0), Some(1080.0), Some(450.0)]);
        assert_eq!(Unit::Clock.say(450.0, &day, METRIC), "07:30");
    }

    #[test]
    fn what_is_measured_in_one_unit_only_may_be_typed_with_it() {
        let power = Limit { least: 0.5, most: 30.0, step: 0.1, usual: 3.0, by_ratio: true };
        let read = |text| understood(Unit::Power, &power, text, (0.0, "–"), METRIC).map(|it| it.value);
        assert_eq!(["6", "6 kW", "6.0KW"].map(read), [Some(6.0); 3]);
        assert_eq!(["6 V", "kW", "ä"].map(read), [None; 3]);
    }
}
