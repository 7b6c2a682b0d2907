//! The viscous sheet against closed forms of plates, membranes and shells: its velocities at one moment, or on a way of its own.

use super::table::{near, rows, words};
use dappledome::base::scalar::{cbrt, pow, sin_cos};
use dappledome::slump::sheet::resistance::Resistance;
use dappledome::slump::sheet::shape::Shape;
use std::f64::consts::FRAC_PI_2;

const RADIUS: f64 = 75.0;
const THICKNESS: f64 = 6.0;

/// How fast a flat disc's ring sinks by its weight, with some unknowns held, over a³/h² for each unit of reduced time.
fn sag_rate(shape: &Shape, held: &[usize], ring: usize) -> f64 {
    let mut resistance = Resistance::default();
    resistance.set_up(shape, 0.0);
    resistance.weigh(shape, 1.0 / RADIUS);
    held.iter().for_each(|unknown| resistance.hold(*unknown));
    resistance.begin();
    let velocity = resistance.solve().expect("it is held");
    -velocity[2 * ring + 1] * THICKNESS * THICKNESS / (RADIUS * RADIUS * RADIUS)
}

/// The rate of the center of a disc that is held at its rim.
fn supported(n: usize) -> f64 {
    sag_rate(&Shape::flat(RADIUS, THICKNESS, n), &[2 * n + 1], 0)
}

/// The same of a disc that is held level there.
fn clamped(n: usize) -> f64 {
    let mut nodes = Shape::flat(RADIUS, THICKNESS, n).nodes;
    nodes.push((RADIUS * (1.0 + 1e-6), 0.0));
    sag_rate(&Shape::new(nodes, THICKNESS), &[2 * n + 1, 2 * n + 3], 0)
}

/// The errors of a rate at doubling numbers of stretches: small at 64, and a quarter each time (second order).
fn falls_by_four(what: &str, rate: impl Fn(usize) -> f64, want: f64, at_64: f64) {
    let errors: Vec<f64> = [16, 32, 64, 128].into_iter().map(|n| rate(n) / want - 1.0).collect();
    println!("{what}: {errors:.6?}");
    near(what, errors[2], 0.0, at_64);
    for pair in errors.windows(2) {
        near(&format!("{what}: order"), pair[0] / pair[1], 4.0, 0.2);
    }
}

/// Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells: a plate simply supported at its rim sags by
/// (5 + nu)/(1 + nu) q a⁴/(64 D); of viscous glass nu is 1/2 and D = eta h³/3, so the rate is 11/64 rho g a⁴/(eta h²).
#[test]
fn a_disc_held_at_its_rim_sags_as_a_plate() {
    falls_by_four("simply supported", supported, 11.0 / 64.0, 1e-4);
}

/// The same book: clamped, q a⁴/(64 D), a rate of 3/64. A last stretch of next to no width is held level.
#[test]
fn a_disc_clamped_at_its_rim_sags_as_a_plate() {
    falls_by_four("clamped", clamped, 3.0 / 64.0, 1e-3);
}

/// Own reference computation (numpy): `tests/data/kiln/slump_verify.csv` has how far off the same two rates are with 16 to 256 stretches there, where
/// weight is shared among the rings in another way. Both are of second order; ours is never more than 2.2 times as far off.
#[test]
fn its_errors_are_of_the_references_size() {
    let exact = |share: f64| share * 2450.0 * 9.80665 * 0.075 * 0.075 * 0.075 * 0.075 / (1e8 * 0.006 * 0.006);
    let mut compared = 0;
    for (row, words) in rows("kiln/slump_verify.csv").iter().zip(words("kiln/slump_verify.csv")) {
        let (share, got) = match words[0].as_str() {
            "simply supported sag rate m/s" => (11.0 / 64.0, supported(row[1] as usize)),
            "clamped sag rate m/s" => (3.0 / 64.0, clamped(row[1] as usize)),
            _ => continue,
        };
        near("m/s", exact(share) / row[3], 1.0, 1e-9);
        let off = got / share - 1.0;
        println!("{} {}: {off:.3e}, numpy {:.3e}", words[0], row[1], row[4]);
        assert!(off > 0.0 && off < 2.2 * row[4], "{words:?}: {off}");
        compared += 1;
    }
    assert_eq!(compared, 10);
}

/// The same book: carried by its center alone, the rim of a free disc sags by (7 + 3 nu)/(1 + nu) q a⁴/(64 D): a rate of 17/64. That is
/// how a disc begins to drape over a hump.
#[test]
fn a_disc_on_a_point_sags_as_a_plate() {
    let rate = |n| sag_rate(&Shape::flat(RADIUS, THICKNESS, n), &[1], n);
    let errors: Vec<f64> = [16, 32, 64, 128].into_iter().map(|n| rate(n) / (17.0 / 64.0) - 1.0).collect();
    println!("on a point: {errors:.6?}");
    // A load on a point bends without bound right there: a little slower than second order.
    near("on a point", errors[2], 0.0, 1.1e-3);
    assert!(errors.windows(2).all(|pair| pair[0] / pair[1] > 3.4), "order");
}

/// The first number of Hencky's series (1915, Z. Math. Phys. 63, 311; the series from memory), by bisection: b so that the rim of the membrane
/// does not go inward, the sum of (2 n + 1 - nu) b_2n = 0.
fn hencky(poisson: f64) -> f64 {
    let inward = |b: f64| {
        let terms = [
            (1.0, -1.0),
            (-1.0, 2.0),
            (-2.0 / 3.0, 5.0),
            (-13.0 / 18.0, 8.0),
            (-17.0 / 18.0, 11.0),
            (-37.0 / 27.0, 14.0),
            (-1205.0 / 567.0, 17.0),
            (-219_241.0 / 63_504.0, 20.0),
        ];
        let sum = |(n, (factor, power)): (usize, &(f64, f64))| {
            (2.0 * n as f64 + 1.0 - poisson) * factor / pow(b, *power)
        };
        terms.iter().enumerate().map(sum).sum::<f64>()
    };
    let (mut low, mut high) = (1.5, 2.5);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if inward(middle) < 0.0 { low = middle } else { high = middle }
    }
    low
}

/// The numbers that are in print for the usual solids (from memory), to the terms that are left out.
#[test]
fn henckys_numbers_come_out() {
    for (poisson, want) in [(0.2, 1.6827), (0.3, 1.7244), (0.4, 1.7769), (0.5, 1.8453)] {
        let got = hencky(poisson);
        println!("nu {poisson}: {got:.4}");
        near("b", got, want, 3e-3);
    }
}

/// Hencky 1915 (series from memory) at nu = 1/2: a thin membrane that is pinned at its rim hangs w = 0.59488 a (q a/(E h))^(1/3). A viscous one does
/// the same with E = 2 eta/t, so w = 0.59488 a (tau/2)^(1/3).
#[test]
fn a_thin_sheet_hangs_as_a_membrane() {
    let series: f64 = [
        (1.0, 1.0),
        (1.0 / 2.0, 4.0),
        (5.0 / 9.0, 7.0),
        (55.0 / 72.0, 10.0),
        (7.0 / 6.0, 13.0),
        (205.0 / 108.0, 16.0),
    ]
    .into_iter()
    .map(|(a, power)| a / pow(1.845_3, power))
    .sum();
    near("the first terms of the series", series, 0.594_88, 6e-5);
    near("its first number", hencky(0.5), 1.845_3, 5e-4);

    let (n, thin) = (64, 0.01);
    let mut shape = Shape::flat(RADIUS, thin, n);
    let mut resistance = Resistance::default();
    let (mut tau, mut step) = (0.0, 1e-12);
    while shape.nodes[0].1 > -1.5 {
        resistance.set_up(&shape, step);
        resistance.weigh(&shape, 1.0 / RADIUS);
        resistance.hold(2 * n);
        resistance.hold(2 * n + 1);
        resistance.begin();
        let velocity = resistance.solve().expect("it is pinned").to_vec();
        resistance.pull(&shape);
        shape.go(&velocity, step);
        tau += step;
        // The sag grows by a two-hundredth each step.
        step = (0.005 * (thin - shape.nodes[0].1) / -velocity[1]).min(1.2 * step);
    }
    let want = 0.594_88 * RADIUS * cbrt(tau / 2.0);
    println!("membrane: {} of {want}", -shape.nodes[0].1);
    near("sag over that of Hencky's membrane", -shape.nodes[0].1 / want, 1.0, 3e-3);
}

/// Textbook: a thin sphere under pressure carries p R/2 in each direction, and glass that stretches evenly by e both ways carries 6 eta h e:
/// it grows at p R²/(12 eta h).
#[test]
fn a_sphere_is_blown_up_evenly() {
    let (n, thin, pressure) = (64, 0.5, 0.01);
    let angle = |i: usize| sin_cos(FRAC_PI_2 * i as f64 / n as f64);
    let nodes = (0..=n).map(|i| (RADIUS * angle(i).0, RADIUS * angle(i).1)).collect();
    let shape = Shape::new(nodes, thin);
    let mut resistance = Resistance::default();
    resistance.set_up(&shape, 0.0);
    for i in 0..=n {
        let force = pressure * shape.carried[i] / thin;
        resistance.push(i, force * angle(i).0, force * angle(i).1);
    }
    // The equator is a plane of symmetry.
    resistance.hold(2 * n + 1);
    resistance.begin();
    let velocity = resistance.solve().expect("it is held");
    let want = pressure * RADIUS * RADIUS / (12.0 * thin);
    let growth = |i: usize| (velocity[2 * i] * angle(i).0 + velocity[2 * i + 1] * angle(i).1) / want - 1.0;
    let mean = (0..n).map(|i| growth(i) * shape.carried[i]).sum::<f64>() / shape.carried.iter().sum::<f64>();
    println!("sphere: mean {mean:.1e}, pole {:.1e}", growth(0));
    near("mean growth", mean, 0.0, 2e-3);
    near("growth of the pole", growth(0), 0.0, 1.2e-2);
}
