//! What was asked and what was, a line each; what was is typed where it stands.

use crate::controls::number::Number;
use crate::fields::types::Unit;
use crate::model::ids::LogId;
use crate::state::log::Log;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::units::{Celsius, Grams, Minutes, Mm};
use dappledome::keep::log::{CLOCK, GRAMS, HOLD, KWH, Outcome, PIECES, SIZE, TOP};
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// One line.
struct Row {
    unit: Unit,
    limit: Limit,
    get: fn(&Outcome) -> Option<f64>,
    set: fn(&mut Outcome, Option<f64>),
}

/// In the order of their names in [`words::OUTCOMES`].
const ROWS: [Row; 9] = [
    Row {
        unit: Unit::Celsius,
        limit: TOP,
        get: |one| one.top.map(|top| top.0),
        set: |one, value| one.top = value.map(Celsius),
    },
    Row {
        unit: Unit::Minutes,
        limit: HOLD,
        get: |one| one.hold.map(|hold| hold.0),
        set: |one, value| one.hold = value.map(Minutes),
    },
    Row {
        unit: Unit::Mm,
        limit: SIZE,
        get: |one| one.across.map(|across| across.0),
        set: |one, value| one.across = value.map(Mm),
    },
    Row {
        unit: Unit::Mm,
        limit: SIZE,
        get: |one| one.high.map(|high| high.0),
        set: |one, value| one.high = value.map(Mm),
    },
    Row {
        unit: Unit::Grams,
        limit: GRAMS,
        get: |one| one.grams.map(|grams| grams.0),
        set: |one, value| one.grams = value.map(Grams),
    },
    Row { unit: Unit::Energy, limit: KWH, get: |one| one.kwh, set: |one, value| one.kwh = value },
    Row {
        unit: Unit::Clock,
        limit: CLOCK,
        get: |one| one.opened.map(|opened| opened.0),
        set: |one, value| one.opened = value.map(Minutes),
    },
    Row {
        unit: Unit::Count,
        limit: PIECES,
        get: |one| one.sound.map(f64::from),
        set: |one, value| one.sound = value.map(|value| value as u32),
    },
    Row {
        unit: Unit::Count,
        limit: PIECES,
        get: |one| one.cracked.map(f64::from),
        set: |one, value| one.cracked = value.map(|value| value as u32),
    },
];

/// The table.
pub fn outcomes(log: Log, id: LogId) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let rows: Vec<AnyView> =
        ROWS.iter().zip(words::OUTCOMES).map(|(row, name)| line(log, id, row, name, said)).collect();
    view! {
        <h4>{words::SET_AND_WAS}</h4>
        <table class="log-table">
            <thead>
                <tr>
                    <td></td>
                    <th scope="col">{words::ASKED}</th>
                    <th scope="col">{words::WAS}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
        <p class="refused" role="alert">{move || said.get()}</p>
    }
    .into_any()
}

fn line(
    log: Log,
    id: LogId,
    row: &'static Row,
    name: &'static str,
    said: RwSignal<Option<String>>,
) -> AnyView {
    let preferences = expect_context::<Preferences>();
    let asked = move || {
        let value = log.with(id, |entry| (row.get)(&entry.asked)).flatten();
        value
            .map(|value| row.unit.say_plainly(rounded(value, row.limit), &row.limit, preferences.units.get()))
    };
    let was = move || log.with(id, |entry| (row.get)(&entry.was)).flatten();
    let set = move |value: Option<f64>| {
        said.set(log.edit(id, |entry| (row.set)(&mut entry.was, value)).err());
    };
    view! {
        <tr>
            <th scope="row">{name}</th>
            <td>{asked}</td>
            <td>
                <Number
                    name=Signal::stored(name.to_owned())
                    unit=row.unit
                    limit=row.limit
                    value=Signal::derive(was)
                    yours=Signal::derive(move || was().is_some())
                    set=Callback::new(move |value| set(Some(value)))
                    usual=Callback::new(move |()| set(None))
                    said
                />
            </td>
        </tr>
    }
    .into_any()
}

/// A forecast, no finer than it would be read off.
fn rounded(value: f64, limit: Limit) -> f64 {
    let parts = (1.0 / limit.step).round().max(1.0);
    (value * parts).round() / parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_number_is_read_where_it_is_set() {
        for (row, name) in ROWS.iter().zip(words::OUTCOMES) {
            let mut outcome = Outcome::default();
            assert_eq!((row.get)(&outcome), None, "{name}");
            (row.set)(&mut outcome, Some(row.limit.usual));
            assert_eq!((row.get)(&outcome), Some(row.limit.usual), "{name}");
            let others = ROWS.iter().filter(|other| (other.get)(&outcome).is_some()).count();
            assert_eq!(others, 1, "{name}");
        }
    }

    #[test]
    fn a_forecast_is_as_fine_as_its_reading() {
        assert_eq!(rounded(18.0437, KWH), 18.0);
        assert_eq!(rounded(157.83, SIZE), 158.0);
        assert_eq!(rounded(157.6, SIZE), 157.5);
    }
}
