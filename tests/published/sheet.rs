//! The viscous sheet against closed forms of plates, membranes and shells: its velocities at one moment, or on a way of its own.

use super::table::near;
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
    let rate = |n| sag_rate(&Shape::flat(RADIUS, THICKNESS, n), &[2 * n + 1], 0);
    falls_by_four("simply supported", rate, 11.0 / 64.0, 1e-4);
}

/// The same book: clamped, q a⁴/(64 D), a rate of 3/64. A last stretch of next to no width is held level.
#[test]
fn a_disc_clamped_at_its_rim_sags_as_a_plate() {
    let rate = |n: usize| {
        let mut nodes = Shape::flat(RADIUS, THICKNESS, n).nodes;
        nodes.push((RADIUS * (1.0 + 1e-6), 0.0));
        sag_rate(&Shape::new(nodes, THICKNESS), &[2 * n + 1, 2 * n + 3], 0)
    };
    falls_by_four("clamped", rate, 3.0 / 64.0, 1e-3);
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
