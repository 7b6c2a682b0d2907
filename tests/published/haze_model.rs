//! The reference for haze held against the numbers that its model was published with, and those against a Monte Carlo and a
//! many-stream calculation of our own.

use super::reference::{Model, Slab, look, look_on_base, pass};
use super::table::{near, rows, words, worse};
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::color::spectrum::{WAVELENGTHS, to_linear};
use dappledome::glass::demo::{CHALK, CLEAR, CORAL, DemoGlass};

/// The layers of a row, bottom first.
fn stack(row: &[f64], model: Model) -> Vec<Slab> {
    let layer = |at: usize| {
        let first = 4 + 3 * at;
        let (absorption, scatter, thickness) = (row[first], row[first + 1], row[first + 2]);
        Slab { absorption, scatter, thickness, model }
    };
    (0..row[2] as usize).rev().map(layer).collect()
}

/// Columns of a quantity: Monte Carlo, many streams, the model.
const LOOKS: [(f64, [usize; 3]); 3] = [(0.0, [22, 29, 35]), (0.305, [23, 30, 36]), (0.8, [24, 31, 37])];
const PASS: [usize; 3] = [25, 32, 38];
const BASES: [(f64, [usize; 3]); 2] = [(0.88, [26, 33, 39]), (0.0, [27, 34, 40])];

/// What the reference says of a row, each with its columns.
pub fn told(row: &[f64], model: Model) -> Vec<(f64, [usize; 3])> {
    let stack = stack(row, model);
    if row[BASES[0].1[0]].is_nan() {
        let mut told: Vec<_> =
            LOOKS.iter().map(|(ground, columns)| (look(&stack, *ground), *columns)).collect();
        told.push((pass(&stack, model.normal(592.0)), PASS));
        told
    } else {
        BASES.iter().map(|(base, columns)| (look_on_base(&stack, *base), *columns)).collect()
    }
}

/// 320 stacks as the model was published (1e-4, its last digits being rounded); against many streams, which have no noise,
/// within the error that the model is known to have (measured).
#[test]
fn the_reference_is_the_published_model() {
    let table = rows("haze_stacks.csv");
    assert_eq!(table.len(), 320);
    let (mut from_model, mut from_streams, mut squares, mut count) = (0.0, 0.0, 0.0, 0.0);
    for row in &table {
        for (got, [_, streams, model]) in told(row, Model::Published) {
            near(&format!("stack {}, column {model}", row[0]), got, row[model], 1e-4);
            from_model = worse(from_model, got - row[model]);
            from_streams = worse(from_streams, got - row[streams]);
            squares += (got - row[streams]) * (got - row[streams]);
            count += 1.0;
        }
    }
    let rms: f64 = (squares / count).sqrt();
    println!(
        "haze: {count} values, from the published {from_model:.1e}; from many streams worst {from_streams:.4}, rms {rms:.4}"
    );
}

/// Chalk on, in and under 6 mm of clear, over black, the table and white, and lit: within .01 of each printed L*, a*, b*.
#[test]
fn the_reference_gives_the_published_series_of_chalk() {
    let series = series();
    assert_eq!(series.len(), 128);
    let mut from_streams = 0.0;
    for line in &series {
        let got = chalk(&line.place, line.thickness, &line.seen, Model::Published);
        for i in 0..3 {
            let what = format!("chalk {}, {} mm, {}", line.place, line.thickness, line.seen);
            near(&what, got[i], line.model[i], 0.011);
        }
        from_streams = worse(from_streams, de2000(got, line.streams));
    }
    println!("chalk: worst {from_streams:.2} CIEDE2000 from many streams");
    assert!(from_streams < 1.1, "{from_streams}");
}

/// L*, a*, b* of the chalk: in mm, in its place, seen so. Slabs lie bottom first.
pub fn chalk(place: &str, thickness: f64, seen: &str, model: Model) -> Lab {
    let colors = std::array::from_fn(|band| {
        let slab = |glass: &DemoGlass, thickness| Slab {
            absorption: glass.absorption[band].into(),
            scatter: glass.scatter[band].into(),
            thickness,
            model,
        };
        let (chalk, clear) = (slab(&CHALK, thickness), |thickness| slab(&CLEAR, thickness));
        let stack = match place {
            "on top" => vec![clear(6.0), chalk],
            "inside" => vec![clear(3.0), chalk, clear(3.0)],
            "below" => vec![chalk, clear(6.0)],
            "under 0.3 mm coral" => vec![clear(6.0), chalk, slab(&CORAL, 0.3)],
            _ => panic!("no such place: {place}"),
        };
        match seen.strip_prefix("ground ") {
            Some(ground) => look(&stack, ground.parse().expect("a ground is a number")) as f32,
            None => pass(&stack, model.normal(WAVELENGTHS[band].into())) as f32,
        }
    });
    to_lab(to_linear(&colors))
}

/// A line of the series: its numbers, its place, how it is seen, the model's L*, a*, b* and those of many streams.
struct Line {
    place: String,
    thickness: f64,
    seen: String,
    model: Lab,
    streams: Lab,
}

fn series() -> Vec<Line> {
    let words = words("haze_chalk.csv");
    let number = |field: &String| field.parse().expect("a number");
    let lines = words.iter().map(|row| Line {
        place: row[0].clone(),
        thickness: number(&row[1]),
        seen: row[3].clone(),
        streams: [&row[7], &row[8], &row[9]].map(number),
        model: [&row[10], &row[11], &row[12]].map(number),
    });
    lines.collect()
}
