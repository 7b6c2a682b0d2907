//! Four numbers at once against their twins, one by one and bit for bit: any numbers at all, and tables of odd sizes.

use dappledome::base::disc::Disc;
use dappledome::base::grid::Grid;
use dappledome::base::lanes::{self, Four, LANES, Number, counted, flagged, fours, load, store};
use dappledome::base::rows::each_row;
use dappledome::base::scalar::{Bounds, diamond_turn, eased, exp2, fast_pow, lerp, log2, smoothstep, within};
use dappledome::base::units::Mm;
use dappledome::layup::field::Tile;
use proptest::array::uniform4;
use proptest::prelude::*;

/// Any bits, and often those that differ from machine to machine.
fn any_number() -> impl Strategy<Value = f32> {
    let special = [0.0, -0.0, 1.0, -1.0, f32::INFINITY, f32::NEG_INFINITY, f32::NAN, -f32::NAN];
    let small = [f32::MIN_POSITIVE, -f32::MIN_POSITIVE, 1e-40, -1e-40, f32::MAX, f32::MIN];
    prop_oneof![
        prop::sample::select([&special[..], &small[..]].concat()),
        any::<u32>().prop_map(f32::from_bits),
        -4.0f32..4.0,
    ]
}

/// Numbers that are smaller than this.
fn below(most: f32) -> impl Strategy<Value = f32> {
    prop_oneof![prop::sample::select(vec![0.0, -0.0, 0.5, -0.5, 1.0, -1.0]), -most..most]
}

/// The same bits, or neither a number.
#[track_caller]
fn same(what: &str, lanes: Four, twins: [f32; LANES]) {
    for (lane, twin) in lanes.to_array().into_iter().zip(twins) {
        assert!(
            lane.to_bits() == twin.to_bits() || (lane.is_nan() && twin.is_nan()),
            "{what}: {lane:e} ({:08x}), and by itself {twin:e} ({:08x})",
            lane.to_bits(),
            twin.to_bits()
        );
    }
}

fn one(f: impl Fn(f32) -> f32, x: [f32; 4]) -> [f32; 4] {
    x.map(f)
}

fn two(f: impl Fn(f32, f32) -> f32, x: [f32; 4], y: [f32; 4]) -> [f32; 4] {
    std::array::from_fn(|lane| f(x[lane], y[lane]))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_numbers_come_out_as_their_twins(
        x in uniform4(any_number()),
        y in uniform4(any_number()),
        z in uniform4(any_number()),
        limit in any_number(),
    ) {
        let (a, b, c) = (Four::new(x), Four::new(y), Four::new(z));
        same("of", Four::of(limit), [limit; 4]);
        same("sum", a + b, two(|x, y| x + y, x, y));
        same("difference", a - b, two(|x, y| x - y, x, y));
        same("product", a * b, two(|x, y| x * y, x, y));
        same("quotient", a / b, two(|x, y| x / y, x, y));
        same("with one number", ((a + limit) * limit - limit) / limit, one(|x| ((x + limit) * limit - limit) / limit, x));
        same("negative", -a, one(|x| -x, x));
        same("at least", a.at_least(b), two(Bounds::at_least, x, y));
        same("at most", a.at_most(b), two(Bounds::at_most, x, y));
        same("within", within(a, -0.5, 2.0), one(|x| within(x, -0.5, 2.0), x));
        same("root", a.root(), one(Number::root, x));
        same("size", a.size(), one(Number::size, x));
        let above = std::array::from_fn(|lane| x[lane].above(y[lane], z[lane], x[lane]));
        same("above", a.above(b, c, a), above);
        prop_assert_eq!(a.any_above(limit), x.iter().any(|x| x.any_above(limit)));
        let mixed = std::array::from_fn(|lane| lerp(x[lane], y[lane], z[lane]));
        same("lerp", lerp(a, b, c), mixed);
        same("eased", eased(a), one(eased, x));
        same("smoothstep", smoothstep(-1.0, 2.0, a), one(|x| smoothstep(-1.0, 2.0, x), x));
        same("diamond", diamond_turn(a, b), two(diamond_turn, x, y));
        same("exp2", exp2(a), one(exp2, x));
        same("log2", log2(a), one(log2, x));
        same("power", fast_pow(a, b), two(fast_pow, x, y));
        let normal = x.map(|x| x.at_least(f32::MIN_POSITIVE));
        let (exponent, rest) = Four::new(normal).exponent();
        same("exponent", exponent, one(|x| x.exponent().0, normal));
        same("what it multiplies", rest, one(|x| x.exponent().1, normal));
    }

    #[test]
    fn whole_parts_come_out_as_their_twins(x in uniform4(below(2.1e9)), power in uniform4(-126i32..=127)) {
        let power = power.map(|power| power as f32);
        same("whole", Four::new(x).whole(), one(Number::whole, x));
        same("floor", Four::new(x).floor_of(), one(Number::floor_of, x));
        same("power of two", Four::two_to(Four::new(power)), one(f32::two_to, power));
        for (power, x) in power.into_iter().zip(one(f32::two_to, power)) {
            prop_assert_eq!(f64::from(x), dappledome::base::scalar::pow(2.0, power.into()));
        }
    }

    /// Tables of 2 to 9 points a side, of 1, 2 and 4 values.
    #[test]
    fn tables_are_read_as_by_their_twins(
        values in prop::collection::vec(below(1e3), 4 * 81),
        n in 2usize..=9,
        place in uniform4((0.0f32..1.0, 0.0f32..1.0)),
    ) {
        read::<1>(&values, n, place);
        read::<2>(&values, n, place);
        read::<4>(&values, n, place);
        let at = place.map(|(u, _)| u * (n as f32 - 1.001));
        same(
            "along",
            Four::along(&values[..n], Four::new(at).point()),
            one(|at| f32::along(&values[..n], at.point()), at),
        );
    }

    #[test]
    fn places_wrap_as_remainders_do(x in uniform4(-5000i32..5000), y in uniform4(-5000i32..5000), bits in 0u32..9) {
        let side = 1usize << bits;
        let [column, row] = [x, y].map(|of| Four::new(of.map(|at| at as f32)));
        let want = std::array::from_fn(|lane| {
            let wrap = |at: i32| at.rem_euclid(side as i32) as usize;
            wrap(y[lane]) * side + wrap(x[lane])
        });
        prop_assert_eq!(lanes::wrapped_places(column, row, side), want);
        prop_assert_eq!(lanes::places(Four::new(x.map(|x| x.abs() as f32))), x.map(|x| x.unsigned_abs() as usize));
    }
}

fn read<const N: usize>(values: &[f32], n: usize, place: [(f32, f32); 4]) {
    let table: Vec<[f32; N]> = values.as_chunks().0[..n * n].to_vec();
    let place = place.map(|(u, v)| (u * (n as f32 - 1.001), v * (n as f32 - 1.001)));
    let [u, v] = [place.map(|at| at.0), place.map(|at| at.1)].map(Four::new);
    let four = Four::between(&table, n, u.point(), v.point());
    let twins = place.map(|(u, v)| f32::between(&table, n, u.point(), v.point()));
    for k in 0..N {
        same(&format!("value {k} of {N}"), four[k], twins.map(|twin| twin[k]));
    }
}

/// By hand: a table of two rows of two, a quarter of the way across and half of it down.
#[test]
fn a_table_is_read_between_its_points() {
    let table = [[1.0], [3.0], [5.0], [11.0]];
    // 1 and 5 make 3, 3 and 11 make 7; a quarter of the way from 3 to 7 is 4.
    assert_eq!(f32::between(&table, 2, (0.0, 0.25), (0.0, 0.5)), [4.0]);
    assert_eq!(f32::along(&[1.0, 3.0, 11.0], 1.25f32.point()), 5.0);
}

#[test]
fn rows_of_any_length_are_loaded_and_stored() {
    for n in 0..=9 {
        let row: Vec<f32> = (0..n).map(|i| 1.0 + i as f32).collect();
        let at = |i: usize| row.get(i).copied().unwrap_or(0.0);
        same("load", load(&row), std::array::from_fn(at));
        let two = fours::<2>(&row);
        assert_eq!(two.is_some(), n >= 8, "{n}");
        for (k, four) in two.into_iter().flatten().enumerate() {
            same("fours", four, std::array::from_fn(|lane| at(4 * k + lane)));
        }
        let mut out = vec![9.0; n];
        store(&mut out, counted(3.0));
        let want: Vec<f32> = (0..n).map(|i| if i < 4 { 3.0 + i as f32 } else { 9.0 }).collect();
        assert_eq!(out, want);
    }
    assert_eq!(lanes::sum(Four::new([0.1, 0.2, 0.3, 1e8])), (0.1 + 0.2) + (0.3 + 1e8));
    same("flagged", flagged([true, false, false, true]), [1.0, 0.0, 0.0, 1.0]);
}

/// Every row once, whatever its length, and every cell of the disc where it lies; none beside it.
#[test]
fn planes_of_odd_sizes_are_filled() {
    for (n, width) in [(1, 1), (2, 3), (3, 2), (5, 7), (70, 5)] {
        let mut plane = vec![0usize; n * width];
        each_row(&mut plane, width, |row, cells| {
            cells.iter_mut().enumerate().for_each(|(column, cell)| *cell += 1 + row * width + column);
        });
        assert!(plane.iter().enumerate().all(|(at, cell)| *cell == at + 1), "{n} rows of {width}");
    }
    for n in [1, 2, 3, 5, 6, 7, 64, 129] {
        let grid = Grid::new(Disc::new(Mm(160.0)), n);
        let mut plane = vec![f32::NAN; grid.len()];
        grid.tabulate(&mut plane, |x, y| x + y * 1000.0);
        let mut want = vec![f32::NAN; grid.len()];
        grid.each(|at, column, row| want[at] = grid.x(column) + grid.y(row) * 1000.0);
        let bits = |plane: &[f32]| plane.iter().map(|x| x.to_bits()).collect::<Vec<_>>();
        assert_eq!(bits(&plane), bits(&want), "{n} cells");
    }
}

/// A place a hair before the first point of a tile that repeats lies between its last point and its first.
#[test]
fn a_tile_repeats_at_its_edge() {
    let n = 512;
    let values: Vec<f32> = (0..n * n).map(|at| (at % n) as f32).collect();
    let (tile, first) = (Tile::new(n, 0.25, &values), 0.125f32);
    let line = tile.line(40.0);
    for bits in first.to_bits() - 16..=first.to_bits() + 16 {
        let x = f32::from_bits(bits);
        let [got, ..] = line.sample(Four::of(x)).to_array();
        assert!(got.abs() < 1e-2, "{x:e}: {got}");
        line.sample_even(Four::of(x));
        assert!(
            (0..4).all(|turn| (line.sample(Four::of(x + 128.0 * turn as f32)).to_array()[0]).abs() < 1e-2)
        );
    }
    let [between, ..] = line.sample(Four::of(first - 0.125)).to_array();
    assert_eq!(between, 255.5, "halfway from the last to the first");
}
