//! Loose powder and its speckle against the published grain model and a simulation of our own.

use super::table::{near, rows, worse};
use dappledome::base::lanes::{Four, Number};
use dappledome::base::scalar::exp;
use dappledome::fuse::leveling::LEVELING;
use dappledome::fuse::speckle::{Speckle, fired_variation};
use dappledome::glass::cover;
use dappledome::optics::kubelka_munk::thick;
use dappledome::optics::loose_powder::grain_layer;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Shkuratov, Starukhina, Hoffmann & Arnold 1999, Icarus 137, 235.
#[test]
fn a_layer_of_grains_is_the_published_one() {
    let table = rows("grain_layers.csv");
    assert_eq!(table.len(), 27);
    let mut worst = 0.0;
    for row in &table {
        let grains = grain_layer(row[0], 0.0, row[1]);
        let got = [thick(grains.k, grains.s), grains.back, grains.forward, grains.k, grains.s];
        for (got, want) in got.into_iter().zip(&row[2..]) {
            worst = worse(worst, got - want);
            near(&format!("{row:?}"), got, *want, 1e-6);
        }
    }
    println!("grains: worst {worst:.1e}");
}

/// The same paper: a grain that absorbs nothing loses nothing.
#[test]
fn clear_grains_lose_no_light() {
    for filled in [0.3, 0.5, 0.7] {
        let grains = grain_layer(0.0, 0.0, filled);
        near("back and forward", grains.back + grains.forward, 1.0, 1e-12);
    }
}

/// The mean within 1 % and the spread within 10 % of a compound Poisson count (common practice, no source).
#[test]
fn speckle_scatters_as_grains_do() {
    let (mut worst_mean, mut worst_spread) = (0.0, 0.0);
    for mean in [0.06, 0.1, 0.25, 0.6] {
        for (fired, leveling) in [(false, 0.0), (true, f64::from(LEVELING))] {
            let (got, spread) = measured(0.08, 0.25, mean, fired);
            let want = variation(0.08, mean, 0.25, leveling);
            (worst_mean, worst_spread) =
                (worse(worst_mean, got / mean - 1.0), worse(worst_spread, spread / want - 1.0));
            assert!((got / mean - 1.0).abs() <= 0.01, "{mean} mm, fired {fired}: mean {got}");
            if fired {
                near("forewarned", fired_variation(0.08, mean as f32).into(), want, 1e-6);
            }
            assert!((spread / want - 1.0).abs() <= 0.10, "{mean} mm, fired {fired}: {spread}, not {want}");
        }
    }
    println!("speckle: mean {worst_mean:.1e}, spread {worst_spread:.3}");
}

/// Own simulation of single grains: the rows that are not leveled and have the engine's spread of sizes (the sparsest below).
#[test]
fn loose_speckle_agrees_with_simulated_grains() {
    let table = rows("speckle.csv");
    let loose: Vec<_> = table
        .iter()
        .filter(|row| row[0] == 0.08 && row[1] == 0.35 && row[2] > 0.03 && row[4] == 0.0)
        .collect();
    let mut worst = 0.0;
    for row in loose {
        let (_, spread) = measured(row[0] as f32, row[3] as f32, row[2], false);
        worst = worse(worst, spread / row[6] - 1.0);
        assert!((spread / row[6] - 1.0).abs() <= 0.10, "{row:?}: {spread}");
    }
    println!("loose speckle: worst {worst:.3}");
}

/// The sparsest simulated bed, loose, with little more than one grain to a cell: its square root is far from normal, and
/// it comes out an eighth too even (measured 0.757 and 0.760; simulated 0.865). A known limit, held where it is.
#[test]
fn a_sparse_bed_scatters_as_grains_do() {
    let (mean, spread) = measured(0.08, 0.25, 0.03, false);
    near("mean", mean / 0.03, 1.0, 0.01);
    near("spread over the simulated one", spread / 0.8647, 1.0, 0.14);
}

/// Grains next to each other have their own luck when loose; molten powder evens out over 0.3 mm, so that places d apart hang together
/// by exp(-d² / (4 l²)) (the autocorrelation of a Gaussian blur).
#[test]
fn molten_powder_hangs_together() {
    let cell = 0.25f32;
    let correlation = |speckle: &Speckle, apart: u32| {
        let at = |i: u32, j: u32| {
            let x = |i: u32| (i as f32 + 0.5) * cell;
            one(speckle, 0.3, x(i), x(j)) - 0.3
        };
        let (mut both, mut own) = (0.0, 0.0);
        for k in 0..400 * 400u32 {
            let (i, j) = (k % 400, k / 400);
            both += at(i, j) * at(i + apart, j) + at(i, j) * at(i, j + apart);
            own += 2.0 * at(i, j) * at(i, j);
        }
        both / own
    };
    let loose = Speckle::loose(0.08, cell, 0);
    let fired = Speckle::fired(0.08, cell, 0);
    for (apart, want) in [(1, 0.841), (2, 0.499), (3, 0.210), (6, 0.002)] {
        near(&format!("loose, {apart} cells"), correlation(&loose, apart), 0.0, 0.02);
        near(&format!("fired, {apart} cells"), correlation(&fired, apart), want, 0.05);
    }
}

/// Coefficient of variation of a bed: sqrt(v exp(9 s²) / (X A)) sqrt(A / (A + 4 pi l²)), v the mean volume of a grain.
fn variation(grain: f64, mean: f64, cell: f64, leveling: f64) -> f64 {
    const SPREAD: f64 = 0.35;
    let pi = std::f64::consts::PI;
    let volume = pi / 6.0 * grain * grain * grain * exp(4.5 * SPREAD * SPREAD);
    let area = cell * cell;
    (volume * exp(9.0 * SPREAD * SPREAD) / (mean * (area + 4.0 * pi * leveling * leveling))).sqrt()
}

/// Mean and coefficient of variation over the cells of one whole tile of speckle.
fn measured(grain: f32, cell: f32, mean: f64, fired: bool) -> (f64, f64) {
    let speckle = if fired { Speckle::fired(grain, cell, 0) } else { Speckle::loose(grain, cell, 0) };
    let side = (128.0 / cell) as u32;
    let (mut sum, mut squares) = (0.0, 0.0);
    for k in 0..side * side {
        let at = |i: u32| (i as f32 + 0.5) * cell;
        let depth = one(&speckle, mean as f32, at(k % side), at(k / side));
        assert!(depth >= 0.0);
        (sum, squares) = (sum + depth, squares + depth * depth);
    }
    let count = f64::from(side * side);
    let got = sum / count;
    (got, (squares / count - got * got).sqrt() / got)
}

/// Own simulation: grains of one size that fall by chance on a square of 40 grains' width, and places in it that none lies on. Three values
/// are those of another simulation, of the design (0.833, 0.571, 0.319), within its noise.
#[test]
fn a_film_leaves_bare_what_no_grain_falls_on() {
    const SIDE: f64 = 40.0;
    let mut rng = ChaCha8Rng::seed_from_u64(4);
    let mut worst = 0.0;
    for (depth, known) in [(0.125, 0.833), (0.375, 0.571), (0.75, 0.319), (1.5, 0.106)] {
        let count = (SIDE * SIDE * depth / (std::f64::consts::PI / 6.0)).round() as usize;
        let mut place = || [rng.random::<f64>() * SIDE, rng.random::<f64>() * SIDE];
        let grains: Vec<[f64; 2]> = (0..count).map(|_| place()).collect();
        // The square goes on where it ends.
        let apart = |a: f64, b: f64| {
            let d = (a - b).abs();
            d.min(SIDE - d)
        };
        let lies_on = |[x, y]: [f64; 2], grain: &[f64; 2]| {
            let (dx, dy) = (apart(x, grain[0]), apart(y, grain[1]));
            dx * dx + dy * dy < 0.25
        };
        let bare = (0..20_000).map(|_| place()).filter(|at| !grains.iter().any(|grain| lies_on(*at, grain)));
        let simulated = bare.count() as f64 / 20_000.0;
        let got = cover::bare(0.08 * depth, 0.08);
        worst = worse(worst, got - simulated);
        near(&format!("bare at {depth} grains"), got, simulated, 0.02);
        near("bare, the design's", got, known, 0.007);
        near("depth for it", cover::glass_for(got, 0.08), 0.08 * depth, 1e-12);
    }
    println!("bare share: worst {worst:.3}");
}

/// The depth at one place, mm.
fn one(speckle: &Speckle, mean: f32, x: f32, y: f32) -> f64 {
    speckle.along(y)(Four::of(mean), Four::of(x)).to_array()[0].into()
}
