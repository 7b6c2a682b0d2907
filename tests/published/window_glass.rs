//! The window glasses of the catalogue against their measurement, and the model against that measurement summed over the spectrum.

use super::table::rows;
use dappledome::base::scalar::{cbrt, exp};
use dappledome::color::difference::{Lab, de2000, to_lab, to_xyz};
use dappledome::color::spectrum::{WAVELENGTHS, to_linear};
use dappledome::glass::catalogue::find;
use dappledome::glass::demo::{LAGOON, MOSS, SHOAL, SLATE};
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::Lit;

/// The glasses in the order of the table's columns behind wavelength and refractive index.
const GLASSES: [&str; 5] =
    ["window_low_iron", "window_clear", "window_green", "window_bronze", "window_gray"];

/// A column of the measurement at a wavelength in nm, on a straight line between its neighbors.
fn measured(table: &[Vec<f64>], column: usize, nm: f64) -> f64 {
    let two = table.windows(2).find(|two| nm <= two[1][0]).expect("it is within the table");
    let along = (nm - two[0][0]) / (two[1][0] - two[0][0]);
    two[0][column] + along * (two[1][column] - two[0][column])
}

/// Absorption per mm: 4 pi k / lambda.
fn absorption(table: &[Vec<f64>], glass: usize, nm: f64) -> f64 {
    4.0 * std::f64::consts::PI * measured(table, 2 + glass, nm) / (nm * 1e-6)
}

/// Rubin 1985, Solar Energy Materials 12, 275, in refractiveindex.info (CC0); moved by 2 % at most.
#[test]
fn the_catalogue_has_what_was_measured() {
    let table = rows("measured_sheet_glass.csv");
    for (at, id) in GLASSES.into_iter().enumerate() {
        let glass = find(id).expect("it is in the catalogue");
        for (band, nm) in WAVELENGTHS.into_iter().enumerate() {
            let (got, want) = (f64::from(glass.material.absorption[band]), absorption(&table, at, nm.into()));
            assert!((got / want - 1.0).abs() < 0.02, "{id} at {nm} nm: {got}, not {want}");
        }
    }
}

/// What passes a sheet with its own refractive index and extinction (Fresnel, normal, all reflections between the faces), summed over the
/// CIE 1931 observer under D65 (weights derived from its 1 nm tables, every 5 nm): L*a*b* and luminous transmittance.
fn summed(table: &[Vec<f64>], glass: usize, thickness: f64) -> (Lab, f64) {
    let weights = rows("reference_weights_5nm.csv");
    let (mut xyz, mut white) = ([0.0; 3], [0.0; 3]);
    for row in &weights {
        let n = measured(table, 1, row[0]);
        let normal = (n - 1.0) / (n + 1.0);
        let r = normal * normal;
        let t = exp(-absorption(table, glass, row[0]) * thickness);
        let passed = (1.0 - r) * (1.0 - r) * t / (1.0 - r * t * r * t);
        for k in 0..3 {
            xyz[k] += passed * row[1 + k];
            white[k] += row[1 + k];
        }
    }
    let f = |k: usize| {
        let share: f64 = xyz[k] / white[k];
        if share > 216.0 / 24389.0 { cbrt(share) } else { (24389.0 / 27.0 * share + 16.0) / 116.0 }
    };
    let (x, y, z) = (f(0), f(1), f(2));
    ([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], xyz[1] / white[1])
}

/// Sheets of 3, 6 and 10 mm. Most of what is left apart is that the model's index is 1.52 at 592 nm for all glasses, and this one's is
/// 1.523.
#[test]
fn the_model_passes_what_measured_glass_passes() {
    let table = rows("measured_sheet_glass.csv");
    let (mut apart, mut light): (Vec<f64>, Vec<f64>) = (Vec::new(), Vec::new());
    for (at, id) in GLASSES.into_iter().enumerate() {
        let glass = find(id).expect("it is in the catalogue");
        for thickness in [3.0, 6.0, 10.0] {
            let (mut lit, layer) = (Lit::lamp(), Layer::of(&glass.material, thickness));
            lit.lay((&layer, &layer, 0.0), false);
            let shown = to_linear(&lit.shows());
            let (lab, luminous) = summed(&table, at, thickness);
            println!(
                "{id} {thickness} mm: {:.3}, {:.4}",
                de2000(to_lab(shown), lab),
                to_xyz(shown)[1] - luminous
            );
            apart.push(de2000(to_lab(shown), lab));
            light.push((to_xyz(shown)[1] - luminous).abs());
        }
    }
    let apart_most = super::summary::summed("measured sheets, CIEDE2000", &apart);
    assert!(apart_most <= 0.03, "{apart:?}");
    assert!(super::summary::summed("measured sheets, luminous transmittance", &light) <= 0.002, "{light:?}");
}

/// Where ions absorb in glass, nm, is where glass here has a peak among the engine's sixteen bands, no further off than the next one: Fe3+ at 435
/// (Shelby, lecture notes) in measured green window glass; Cr3+ at 450 and 658 (Heritage 5(3), 2022) in the demo's moss; Co2+ at 592 and 645
/// (Weyl 1951, Bamford 1977, from memory) in its slate and in measured gray window glass, which shows both as one.
#[test]
fn ions_absorb_where_they_are_published_to() {
    let measured = |id: &str| find(id).expect("it is in the catalogue").material.absorption;
    for (what, absorption, peaks) in [
        ("green window glass", measured("window_green"), &[435.0][..]),
        ("moss", MOSS.absorption, &[450.0, 658.0]),
        ("slate", SLATE.absorption, &[592.0]),
        ("gray window glass", measured("window_gray"), &[592.0, 645.0]),
    ] {
        let is_peak = |at: usize| absorption[at - 1] < absorption[at] && absorption[at] > absorption[at + 1];
        let found: Vec<usize> = (1..absorption.len() - 1).filter(|at| is_peak(*at)).collect();
        for peak in peaks {
            let near =
                |at: &usize| f64::from(WAVELENGTHS[at - 1]) < *peak && *peak < f64::from(WAVELENGTHS[at + 1]);
            assert!(found.iter().any(near), "{what}: none at {peak} nm, {found:?}");
        }
    }
    // Fe2+ absorbs most at 1050 nm (Shelby) and Cu2+ at 780 to 800 (from memory): both ever more toward the red.
    for absorption in
        [measured("window_green"), measured("window_clear"), SHOAL.absorption, LAGOON.absorption]
    {
        assert!(absorption[9..].is_sorted(), "{:?}", &absorption[9..]);
    }
}
