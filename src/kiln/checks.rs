//! What can be wrong with a kiln's numbers.

use super::data::{Inside, Kiln, Shelf, fault};
use super::wall::MOST_OFF;
use crate::base::notice::Notice;
use crate::base::units::plain;

/// Fewest readings of a cooling that say something.
const FEWEST_READINGS: usize = 3;
/// Most readings of a cooling.
const MOST_READINGS: usize = 48;

/// Every fault of a kiln.
pub fn check(kiln: &Kiln) -> Vec<Notice> {
    let mut faults = Vec::new();
    let Inside { wide, deep, high } = kiln.inside;
    for (name, value, least, most, unit) in [
        ("Its inside width", wide.0, 100.0, 2000.0, "mm"),
        ("Its inside depth", deep.0, 100.0, 2000.0, "mm"),
        ("Its inside height", high.0, 50.0, 2000.0, "mm"),
        ("The free edge of its shelf", kiln.edge.0, 0.0, 60.0, "mm"),
        ("The gap between pieces", kiln.gap.0, 2.0, 40.0, "mm"),
        ("Its wall", kiln.wall.0, 15.0, 300.0, "mm"),
        ("Its power", kiln.power, 0.5, 30.0, "kW"),
        ("The price of a kWh", kiln.price.unwrap_or(0.0), 0.0, 1000.0, ""),
        ("What its walls let through", kiln.leaks.unwrap_or(1.0), 1.0 / MOST_OFF, MOST_OFF, "times as much"),
        ("The metered energy", kiln.metered.map_or(1.0, |metered| metered.kwh), 0.1, 500.0, "kWh"),
        ("The voltage it is made for", kiln.volts.map_or(230.0, |volts| volts.made_for), 90.0, 500.0, "V"),
        ("The voltage it gets", kiln.volts.map_or(230.0, |volts| volts.gets), 90.0, 500.0, "V"),
    ] {
        faults.extend(out_of_range(name, value, (least, most), unit));
    }
    shelf(&mut faults, kiln);
    cooling(&mut faults, kiln);
    faults
}

fn out_of_range(name: &str, value: f64, (least, most): (f64, f64), unit: &str) -> Option<Notice> {
    if value >= least && value <= most {
        return None;
    }
    let shown = if value.abs() < 1e9 { plain(value) } else { "no sensible number".into() };
    let range = format!("{} to {} {unit}", plain(least), plain(most));
    let why = format!("{name} is {}.", format!("{shown} {unit}").trim_end());
    Some(fault("A kiln that cannot be.", why, format!("Use {}.", range.trim_end())))
}

fn shelf(faults: &mut Vec<Notice>, kiln: &Kiln) {
    let (wide, deep) = match kiln.shelf {
        Shelf::Round { across } => (across, across),
        Shelf::Square { wide, deep } => (wide, deep),
    };
    let wrong = [wide.0, deep.0].map(|side| out_of_range("Its shelf", side, (50.0, 2000.0), "mm"));
    let sized = wrong.iter().all(Option::is_none);
    faults.extend(wrong.into_iter().flatten());
    if !sized {
        return;
    }
    if wide > kiln.inside.wide || deep > kiln.inside.deep {
        faults.push(fault(
            "A shelf larger than its kiln.",
            format!("A shelf of {wide} by {deep} does not go in."),
            "Measure both again.",
        ));
    }
}

fn cooling(faults: &mut Vec<Notice>, kiln: &Kiln) {
    let readings = &kiln.cooling;
    if readings.is_empty() {
        return;
    }
    if readings.len() < FEWEST_READINGS || readings.len() > MOST_READINGS {
        let why = format!("The cooling has {} readings.", readings.len());
        let remedy = format!("Write down {FEWEST_READINGS} to {MOST_READINGS}, some hours apart.");
        faults.push(fault("Too few readings, or too many.", why, remedy));
        return;
    }
    let sound = |hours: f64, at: f64| (0.0..=200.0).contains(&hours) && (30.0..=1000.0).contains(&at);
    let in_order = readings.windows(2).all(|pair| pair[0].hours < pair[1].hours && pair[0].at > pair[1].at);
    if !in_order || !readings.iter().all(|reading| sound(reading.hours, reading.at.0)) {
        faults.push(fault(
            "That is no cooling.",
            "Read later, a kiln that is off is cooler: hours go up and degrees go down, between 1000 and 30 °C.".into(),
            "Write the readings down in order.",
        ));
    }
}
