//! How the maker's kiln cools, written down as it was read.

use crate::controls::chart::{Axis, Chart, ChartView, Line, Table, Tick, Weight};
use crate::state::fired::Fired;
use crate::state::kilns::Kilns;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::typed::{Kind, read};
use dappledome::base::units::{Celsius, fixed};
use dappledome::kiln::data::Reading;
use leptos::html;
use leptos::prelude::*;

/// Height of the chart, px.
const HEIGHT: f64 = 180.0;

/// What was read, and the field to write it down.
#[component]
pub fn Cooling() -> impl IntoView {
    let (kilns, fired) = (expect_context::<Kilns>(), expect_context::<Fired>());
    let readings = Memo::new(move |_| kilns.own.read().cooling.clone());
    let fitted = move || {
        let count = readings.read().len();
        let fitted = fired.firings().and_then(|firings| firings.fitted);
        let told = kilns.own.with(|kiln| kiln.leaks.is_some());
        let without = if told { words::BY_ITS_OPENING } else { words::BY_ITS_WALLS };
        fitted.map_or_else(|| without.into(), |fitted| words::fitted(&fitted, count))
    };
    let read_already = move || !readings.read().is_empty();
    view! {
        <h4>{words::HOW_IT_COOLS}</h4>
        <p class="aside">{fitted}</p>
        <Show when=read_already>
            <ChartView
                chart=Signal::derive(move || chart(&readings.read()))
                height=HEIGHT
                name=Signal::stored(words::HOW_IT_COOLS.to_owned())
                table=Signal::derive(move || table(&readings.read()))
            />
        </Show>
        <Writing readings />
    }
}

/// The field.
#[component]
fn Writing(
    /// What is written down already.
    readings: Memo<Vec<Reading>>,
) -> impl IntoView {
    let kilns = expect_context::<Kilns>();
    let field = NodeRef::<html::Textarea>::new();
    let said = RwSignal::new(None::<String>);
    let take = move |_| {
        let text = field.get_untracked().map(|field| field.value()).unwrap_or_default();
        said.set(match understood(&text) {
            Some(cooling) => kilns.describe(|kiln| kiln.cooling = cooling).err(),
            None => Some(words::NOT_A_READING.into()),
        });
    };
    let forget = move |_| {
        let forgotten = kilns.describe(|kiln| {
            kiln.cooling.clear();
            kiln.leaks = None;
        });
        said.set(forgotten.err());
    };
    view! {
        <details class="cooling">
            <summary>{words::WRITE_DOWN_A_COOLING}</summary>
            <p class="aside">{words::COOLING_HELP}</p>
            <textarea
                rows="4"
                aria-label=words::READINGS
                prop:value=move || words::readings(&readings.read())
                node_ref=field
            ></textarea>
            <div class="buttons">
                <button class="button main" on:click=take>{words::TAKE_READINGS}</button>
                <button class="button" on:click=forget>{words::FORGET_READINGS}</button>
            </div>
        </details>
        <p class="refused" role="alert">{move || said.get()}</p>
    }
}

/// Readings, a line each: hours, or hours and minutes with a colon, and °C. None if a line is no reading.
fn understood(text: &str) -> Option<Vec<Reading>> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let one = |line: &str| {
        let (hours, heat) = line.split_once([' ', '\t', ';'])?;
        let hours = match hours.contains(':') {
            true => read(hours, Kind::Time, Units::default())? / 60.0,
            false => read(hours, Kind::Number, Units::default())?,
        };
        Some(Reading { hours, at: Celsius(read(heat, Kind::Temperature, Units::default())?) })
    };
    lines.map(one).collect()
}

fn chart(readings: &[Reading]) -> Chart {
    let points: Vec<(f64, f64)> = readings.iter().map(|reading| (reading.hours, reading.at.0)).collect();
    let (from, to) = (points.first().map_or(0.0, |p| p.0), points.last().map_or(1.0, |p| p.0));
    let hot = points.first().map_or(600.0, |point| (point.1 / 200.0).ceil() * 200.0);
    let step =
        [0.5, 1.0, 2.0, 4.0, 8.0, 24.0].into_iter().find(|step| (to - from) / step <= 8.0).unwrap_or(48.0);
    let tick = |at: f64| Tick { at, label: fixed(at, if step < 1.0 { 1 } else { 0 }) };
    Chart {
        x: Axis {
            from,
            to,
            ticks: (0..=8).map(|n| tick(from + f64::from(n) * step)).filter(|tick| tick.at <= to).collect(),
        },
        y: Axis {
            from: 0.0,
            to: hot,
            ticks: (0..=5)
                .map(|n| f64::from(n) * 200.0)
                .filter(|at| *at <= hot)
                .map(|at| Tick { at, label: fixed(at, 0) })
                .collect(),
        },
        lines: vec![Line { points: points.clone(), weight: Weight::Plain }],
        dots: points,
        ..Chart::default()
    }
}

fn table(readings: &[Reading]) -> Table {
    let row = |reading: &Reading| vec![fixed(reading.hours, 1), fixed(reading.at.0, 0)];
    Table { heads: words::COOLING_HEADS.map(Into::into).into(), rows: readings.iter().map(row).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_are_read_a_line_each() {
        let readings = understood("0 500\n\n2:30 300 °C\n 5;130 ").unwrap();
        let plain: Vec<(f64, f64)> = readings.iter().map(|one| (one.hours, one.at.0)).collect();
        assert_eq!(plain, [(0.0, 500.0), (2.5, 300.0), (5.0, 130.0)]);
        assert_eq!(understood(&words::readings(&readings)), Some(readings));
        assert_eq!(["0 500\nlater", "0", "0 500 300"].map(understood), [None, None, None]);
        assert_eq!(understood(" \n"), Some(Vec::new()));
    }
}
