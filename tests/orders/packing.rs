//! Discs on sheets and shelves.

use dappledome::base::units::Mm;
use dappledome::kiln::data::Shelf;
use dappledome::packing::{Discs, Place, most};
use proptest::prelude::*;

fn square(wide: f64, deep: f64) -> Shelf {
    Shelf::Square { wide: Mm(wide), deep: Mm(deep) }
}

fn round(across: f64) -> Shelf {
    Shelf::Round { across: Mm(across) }
}

/// Discs of radius 1 that may touch, in a room a millionth larger than the smallest that is known for so many: how many go in, where it is
/// fewer.
fn missing(table: &str, room: impl Fn(f64) -> Shelf) -> Vec<String> {
    let discs = Discs { across: 2.0, gap: 0.0, edge: 0.0 };
    let mut missing = Vec::new();
    for row in table.lines().skip(1) {
        let row: Vec<f64> = row.split(',').map(|field| field.parse().unwrap()).collect();
        let (count, size) = (row[0] as usize, row[1]);
        let got = most(room(size * (1.0 + 1e-6)), discs, count).len();
        if got < count {
            missing.push(format!("{got} of {count}"));
        }
        if count > 1 && row[4] == 1.0 {
            let too_many = most(room(size * (1.0 - 1e-6)), discs, count).len();
            assert!(too_many < count, "{count} in a room that is proved too small");
        }
    }
    missing
}

/// The smallest circle around N equal ones, N from 1 to 37: proved to be the smallest up to 13 and for 19, the others the best that is
/// known (Graham, Lubachevsky, Nurmela and Östergård, Discrete Math. 181, 1998; each packing made and measured anew for this project).
#[test]
fn a_round_shelf_holds_what_it_can() {
    assert_eq!(
        missing(include_str!("../data/shop/circles_in_circle.csv"), |size| round(2.0 * size)),
        [""; 0]
    );
}

/// The smallest square around N equal circles, N from 1 to 30: proved to be the smallest.
#[test]
fn a_square_sheet_holds_what_it_can() {
    assert_eq!(
        missing(include_str!("../data/shop/circles_in_square.csv"), |size| square(size, size)),
        [""; 0]
    );
}

/// By hand: 150 mm on a shelf of 380 is a ratio of (190 - 15 + 3) / 78 = 2.282, between 2.155 for three and 2.414 for four. 120 mm on
/// 400 by 400 is (400 - 30 + 6) / 63 = 5.968, between 5.864 for eight and 6 for nine. 160 mm on a sheet of 500 is (500 - 20 + 6) / 83 =
/// 5.855: seven, and with 5 mm between them 5.879: eight.
#[test]
fn worked_loads_come_out() {
    let discs = |across, gap, edge| Discs { across, gap, edge };
    assert_eq!(most(round(380.0), discs(150.0, 6.0, 15.0), 50).len(), 3);
    assert_eq!(most(square(400.0, 400.0), discs(120.0, 6.0, 15.0), 50).len(), 8);
    assert_eq!(most(square(500.0, 500.0), discs(160.0, 6.0, 10.0), 50).len(), 7);
    assert_eq!(most(square(500.0, 500.0), discs(160.0, 5.0, 10.0), 50).len(), 8);
    assert_eq!(most(square(180.0, 180.0), discs(160.0, 6.0, 10.0), 50), [[90.0, 90.0]], "just one");
    assert_eq!(
        most(square(179.0, 500.0), discs(160.0, 6.0, 10.0), 50),
        [[0.0; 2]; 0],
        "narrower than a disc"
    );
    assert_eq!(most(square(500.0, 500.0), discs(160.0, 6.0, 10.0), 4).len(), 4, "no more than are wanted");
}

/// How many go in by square rows, and by rows as bees build, begun in a corner: written down once more.
fn by_rows(wide: f64, deep: f64, discs: Discs) -> usize {
    let apart = discs.across + discs.gap;
    let (w, d) =
        ((wide - 2.0 * discs.edge - discs.across) / apart, (deep - 2.0 * discs.edge - discs.across) / apart);
    if w < 0.0 || d < 0.0 {
        return 0;
    }
    let bees = |w: f64, d: f64| {
        let lines = (d / 0.75_f64.sqrt()).floor() as usize + 1;
        let long = w.floor() as usize + 1;
        let short = if w.fract() >= 0.5 { long } else { long - 1 };
        lines.div_ceil(2) * long + lines / 2 * short
    };
    let plain = (w.floor() as usize + 1) * (d.floor() as usize + 1);
    plain.max(bees(w, d)).max(bees(d, w))
}

fn length(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

/// Every disc within the edge, every two at their distance, to a nanometer.
fn keeps(places: &[Place], discs: Discs, inside: impl Fn(Place) -> bool) {
    for (at, [x, y]) in places.iter().enumerate() {
        assert!(inside([*x, *y]), "({x}, {y}) is over the edge");
        for [other_x, other_y] in &places[..at] {
            let apart = length(x - other_x, y - other_y) - discs.across;
            assert!(apart >= discs.gap - 1e-6, "{apart} mm between two");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sheets_keep_edge_and_gap_and_hold_what_rows_hold(
        wide in 100.0..900.0_f64, deep in 100.0..900.0_f64, across in 50.0..300.0_f64, gap in 2.0..30.0_f64, edge in 0.0..40.0_f64,
    ) {
        let discs = Discs { across, gap, edge };
        let places = most(square(wide, deep), discs, 200);
        let reach = edge + across / 2.0 - 1e-6;
        keeps(&places, discs, |[x, y]| x >= reach && y >= reach && wide - x >= reach && deep - y >= reach);
        prop_assert!(places.len() >= by_rows(wide, deep, discs), "{} against {}", places.len(), by_rows(wide, deep, discs));
        prop_assert_eq!(&places, &most(square(wide, deep), discs, 200), "the same again");
    }

    #[test]
    fn round_shelves_keep_edge_and_gap(room in 150.0..800.0_f64, across in 50.0..300.0_f64, gap in 2.0..40.0_f64) {
        let discs = Discs { across, gap, edge: 20.0 };
        let places = most(round(room), discs, 200);
        let middle = room / 2.0;
        let reach = middle - 20.0 - across / 2.0 + 1e-6;
        keeps(&places, discs, |[x, y]| length(x - middle, y - middle) <= reach);
        prop_assert_eq!(places.is_empty(), room < across + 40.0 - 1e-6);
    }
}
