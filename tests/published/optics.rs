//! Layers and surfaces.

use super::{near, rows};
use dappledome::glass::material::Material;
use dappledome::optics::kubelka_munk::{layer, thick, thin_layer};
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::{Lit, Seen};
use dappledome::optics::surface;

fn glass(absorption: f64, scatter: f64) -> Material {
    Material { absorption: [absorption as f32; 16], scatter: [scatter as f32; 16] }
}

/// What shows of one layer of unit thickness on a base of a given internal reflectance.
fn shown(base: f64, absorption: f64, scatter: f64) -> f64 {
    let layer = Layer::of(&glass(absorption, scatter), 1.0);
    let mut seen = Seen::on(base as f32);
    seen.lay::<false>((&layer, &layer, 0.0), scatter > 0.0);
    seen.shows::<false>(0.0)[7].into()
}

#[test]
fn kubelka_munk_layers() {
    let table = rows(include_str!("../data/kubelka_munk.csv"));
    assert!(table.len() > 20);
    for row in table {
        let (r, t) = layer(row[0], row[1]);
        near(&format!("R of {} {}", row[0], row[1]), r, row[2], 1e-11);
        near(&format!("T of {} {}", row[0], row[1]), t, row[3], 1e-11);
        if row[0] * (row[0] + 2.0 * row[1]) < 4.0 {
            let (r, t) = thin_layer(row[0] as f32, row[1] as f32);
            near("R as a thin layer", r.into(), row[2], 2e-5);
            near("T as a thin layer", t.into(), row[3], 2e-5);
        }
    }
    for row in rows(include_str!("../data/thick_layers.csv")) {
        near(&format!("thick layer of K/S {}", row[0]), thick(row[0], 1.0), row[1], 1e-9);
    }
}

/// Kubelka 1948: K/S = 1/4 and b S X = ln 2 give R = T = 2/5, twice as thick 10/21 and 4/21.
#[test]
fn kubelkas_exact_case() {
    let s = 4.0 / 3.0 * std::f64::consts::LN_2;
    let (r, t) = layer(s / 4.0, s);
    near("R", r, 0.4, 1e-12);
    near("T", t, 0.4, 1e-12);
    let (r, t) = layer(s / 2.0, 2.0 * s);
    near("R twice", r, 10.0 / 21.0, 1e-12);
    near("T twice", t, 4.0 / 21.0, 1e-12);
}

/// Fresnel; diffuse coefficients by the closed form credited to Walsh 1926 and Duntley 1942. 0.596 at n = 1.5 is the
/// value usually credited to Judd 1942.
#[test]
fn surfaces() {
    near("normal", surface::fresnel(1.52, 1.0), 0.042_579_995, 1e-9);
    near("45 degrees", surface::fresnel(1.52, std::f64::consts::FRAC_1_SQRT_2), 0.053_045_232, 1e-9);
    near("grazing", surface::fresnel(1.52, 0.0), 1.0, 1e-12);
    for (n, outside, inside) in [
        (1.33, 0.065_930_849, 0.471_949_149),
        (1.5, 0.091_777_959, 0.596_345_760),
        (1.52, 0.094_706_927, 0.608_166_087),
        (1.55, 0.099_065_831, 0.625_001_386),
    ] {
        near(&format!("from outside, n {n}"), surface::diffuse_outside(n), outside, 1e-8);
        near(&format!("from inside, n {n}"), surface::diffuse_inside(n), inside, 1e-8);
    }
    near("used from outside", surface::DIFFUSE_OUTSIDE, surface::diffuse_outside(surface::INDEX), 1e-8);
    near("used from inside", surface::DIFFUSE_INSIDE, surface::diffuse_inside(surface::INDEX), 1e-8);
    near("used at normal", surface::NORMAL, surface::fresnel(surface::INDEX, 1.0), 1e-8);
}

/// The closed form against the integral it stands for: 2 times the integral of r(cosine) cosine.
#[test]
fn the_diffuse_coefficient_is_an_integral() {
    let steps = 20_000;
    let sum: f64 = (0..steps)
        .map(|i| (f64::from(i) + 0.5) / f64::from(steps))
        .map(|cosine| 2.0 * surface::fresnel(1.52, cosine) * cosine / f64::from(steps))
        .sum();
    near("integral", sum, surface::diffuse_outside(1.52), 1e-7);
}

/// Saunderson 1942, in the form of Allen 1980 with the surface reflection left out. The engine's white is 1, so the light
/// lost on its way in is put back.
#[test]
fn saundersons_correction() {
    for (inside, published) in
        [(0.25, 0.110_603_773), (0.5, 0.269_536_202), (0.75, 0.517_328_422), (1.0, 0.957_420_005)]
    {
        let got = shown(inside, 0.0, 0.0) * (1.0 - surface::NORMAL);
        near(&format!("of {inside}"), got, published, 1e-6);
    }
}

/// Beer-Lambert through a sheet of clear glass with both its faces: (1-r)² t / (1 - r² t²), t = exp(-0.6).
#[test]
fn straight_through_a_sheet() {
    for (alpha, through) in [(0.0, 0.918_318_028), (0.2, 0.503_344_736)] {
        let sheet = Layer::of(&glass(alpha, 0.0), 3.0);
        let mut lit = Lit::lamp();
        lit.lay::<true>((&sheet, &sheet, 0.0), false);
        near(&format!("alpha {alpha}"), lit.shows::<true>()[3].into(), through, 1e-6);
    }
}

/// Williams & Clapper 1953: a transparent film on a white base seen at 45/0, by quadrature. The two-pass rule leaves out
/// the surface of the instrument's light, a factor 0.3924/0.3918; its own error is 0.63 CIEDE2000 at most, here 4 %
/// of the reflectance plus 0.003.
#[test]
fn a_clear_film_on_white() {
    for (tau, published) in [(0.0, 0.742_977_3), (0.1, 0.425_766_2), (0.3, 0.217_573_8), (1.0, 0.041_748_5)] {
        let got = shown(0.88, tau, 0.0);
        near(&format!("optical depth {tau}"), got, published, 0.04 * published + 0.003);
    }
}

#[test]
fn one_layer_against_monte_carlo() {
    let mut worst = 0.0f64;
    for row in rows(include_str!("../data/slab_monte_carlo.csv")) {
        // Physical scatter of optical depth sigma back-scatters as S = 0.6 sigma, if it is isotropic.
        // The table's light comes in at 8 degrees and loses a little at the surface.
        let got = shown(row[0], row[2], 0.6 * row[1]) * (1.0 - surface::NORMAL);
        let what = format!("base {}, scatter {}, absorption {}", row[0], row[1], row[2]);
        near(&what, got, row[3], 0.03);
        near(&format!("{what}, the rule itself"), got, row[4], 0.002);
        worst = worst.max((got - row[3]).abs());
    }
    println!("two-pass rule against Monte Carlo: off by at most {worst:.4}");
}
