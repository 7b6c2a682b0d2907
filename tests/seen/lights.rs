//! Other lights.

use super::eye::{CAT16, Light, apart, degree};
use super::stacks::stacks;
use super::table::{near, rows, worse};
use dappledome::base::scalar::exp;
use dappledome::base::seed::Seed;
use dappledome::color::illuminant::Illuminant;
use dappledome::color::spectrum::{BANDS, WEIGHTS, weighed};
use dappledome::color::srgb::encode;
use dappledome::optics::colors::{LAMP, TABLE, WHITE};
use dappledome::optics::palette::{Palette, PaletteInputs};
use dappledome::picture::view::{Light as By, Stage};
use dappledome::picture::{Pixmap, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Recipe, demo};

/// Sums every 5 nm, as they are fitted to, and where their columns begin.
const OTHERS: [(Illuminant, usize); 3] =
    [(Illuminant::Overcast, 1), (Illuminant::Incandescent, 4), (Illuminant::WarmWhite, 7)];

fn light(first: usize) -> Light {
    Light::read(&rows("reference_weights_lamps_5nm.csv"), first)
}

fn daylight() -> Light {
    Light::read(&rows("reference_weights_5nm.csv"), 1)
}

/// Stacks that nothing was fitted to, in sixteen bands and summed every 5 nm: (mean, 95th percentile, worst) of CIEDE2000.
fn errors(light: &Light, seen_in: Illuminant) -> [f64; 3] {
    let mut off: Vec<f64> =
        stacks(3000, 99).iter().map(|stack| apart(light, stack, seen_in.weights())).collect();
    off.sort_by(f64::total_cmp);
    [
        off.iter().sum::<f64>() / off.len() as f64,
        off[off.len() * 95 / 100],
        off.iter().fold(0.0, |worst, off| worse(worst, *off)),
    ]
}

/// The bands were chosen for daylight; in other lights their own weights do nearly as well. (The worst are dark stacks with edges of 8 nm.)
#[test]
fn sixteen_bands_see_in_each_light_as_the_whole_spectrum_does() {
    let by_day = errors(&daylight(), Illuminant::Daylight);
    println!("daylight: {by_day:.3?}");
    for (seen_in, first) in OTHERS {
        let [mean, p95, worst] = errors(&light(first), seen_in);
        println!("{seen_in:?}: mean {mean:.3}, 95th percentile {p95:.3}, worst {worst:.3}");
        assert!(mean <= 0.02 && p95 <= 0.06 && worst <= 1.5, "{seen_in:?}: {mean}, {p95}, {worst}");
    }
    // Daylight's own weights would not do.
    let wrong = errors(&light(4), Illuminant::Daylight);
    assert!(wrong[0] > 10.0 * by_day[0], "{wrong:?}");
}

/// White in each light, by chromaticity: CIE 15 for D75 and A; Planck's locus at 3000 K. (5 nm sums: within 4e-5.)
#[test]
fn the_lights_are_the_published_ones() {
    for (first, x, y) in [(1, 0.29902, 0.31485), (4, 0.44757, 0.40745), (7, 0.43693, 0.40407)] {
        let white = light(first).white();
        let sum: f64 = white.iter().sum();
        near("x", white[0] / sum, x, 5e-5);
        near("y", white[1] / sum, y, 5e-5);
    }
}

/// What the lights' columns are to each other, wavelength by wavelength, is their spectra: CIE 15's formula of A, Planck's of 3000 K, and A
/// over D65 at 400 and 700 nm by CIE 15's tables (14.708 and 198.261; 82.7549 and 71.6091).
#[test]
fn each_column_is_its_lights_spectrum() {
    let lamps = rows("reference_weights_lamps_5nm.csv");
    let a = |nm: f64| 1.0 / (nm * nm * nm * nm * nm * (exp(1.435e7 / (2848.0 * nm)) - 1.0));
    let warm = |nm: f64| 1.0 / (nm * nm * nm * nm * nm * (exp(1.4388e7 / (3000.0 * nm)) - 1.0));
    let row = |nm: f64| lamps.iter().find(|row| row[0] == nm).expect("every 5 nm");
    let ratio = |nm: f64| row(nm)[5] / row(nm)[8];
    for nm in [450.0, 500.0, 600.0, 650.0] {
        near("A over 3000 K", ratio(nm) / ratio(555.0), a(nm) / warm(nm) * warm(555.0) / a(555.0), 2e-4);
    }
    let day = rows("reference_weights_5nm.csv");
    let over = |nm: f64| {
        let day = day.iter().find(|row| row[0] == nm).expect("every 5 nm");
        row(nm)[4] / day[1]
    };
    near("A over D65", over(700.0) / over(400.0), 198.261 / 14.708 * 82.7549 / 71.6091, 2e-3);
}

#[test]
fn white_and_grays_stay_in_every_light() {
    for light in Illuminant::ALL {
        for gray in [0.02f32, 0.5, 1.0] {
            for channel in weighed(light.weights(), &[gray; BANDS]) {
                near(&format!("{light:?}"), channel.into(), gray.into(), 1e-6);
            }
        }
    }
    assert_eq!(Illuminant::default().weights(), &WEIGHTS);
}

/// CAT16 (Li et al. 2017): its rows add up to one, an eye that is wholly used to a light sees its white as the screen's, one that is not used to
/// it at all sees the color itself; the degree of adaptation at some luminances by own arithmetic.
#[test]
fn eyes_get_used_to_a_light_as_published() {
    for row in CAT16 {
        near("row", row.iter().sum(), 1.0, 1e-5);
    }
    let a = light(4);
    for (used, want) in [(1.0, [1.0; 3]), (0.0, [1.8454, 0.8260, 0.2332])] {
        let seen = a.seen(a.white(), used);
        (0..3).for_each(|k| near("white of A", seen[k], want[k], 1e-3));
    }
    near("bright", degree(1.0, 318.31), 0.99447, 1e-5);
    near("dusk", degree(0.9, 2.0), 0.74502, 1e-4);
}

/// The lamps' own colors in the dusk, the brightest channel being 1.
#[test]
fn a_lamp_has_its_color_to_eyes_partly_used_to_it() {
    for (seen_in, first) in &OTHERS[1..] {
        let light = light(*first);
        let seen = light.seen(light.white(), degree(0.9, 2.0));
        let lamp = seen_in.lamp().expect("it is a lamp");
        (0..3).for_each(|k| near(&format!("{seen_in:?}"), lamp[k].into(), seen[k] / seen[0], 1e-3));
    }
    assert_eq!([Illuminant::Daylight, Illuminant::Overcast].map(Illuminant::lamp), [None; 2]);
}

fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("it is sound").plan
}

fn picture(plan: &Plan, by: By, seen_in: Illuminant) -> Pixmap {
    let view = View { seen_in, ..View::usual(Stage::Fused, by, 64) };
    Preview::new().picture(plan, Seed(1), &view)
}

/// The middle of a bare blank on plain gray is its own color in that light.
#[test]
fn a_picture_is_made_of_the_colors_in_its_light() {
    let mut recipe = Recipe::bare();
    recipe.blank.sheets[0].glass = "window_green".into();
    let plan = plan(&recipe);
    let mut colors = Vec::new();
    for seen_in in Illuminant::ALL {
        let palette = Palette::new(&PaletteInputs::of(&plan).seen_in(seen_in));
        let want = encode(palette.bare(TABLE).map(|c| c * WHITE));
        let got = picture(&plan, By::Gray, seen_in).pixel(32, 32);
        (0..3).for_each(|k| assert!(got[k].abs_diff(want[k]) <= 1, "{seen_in:?}: {got:?}, not {want:?}"));
        colors.push(got);
    }
    assert_ne!(colors[0], colors[2], "green glass looks another green by a warm lamp");
}

/// Within, the lamp has the light's color; no sky is a lamp, so there the usual one stays.
#[test]
fn a_piece_is_lit_from_within_by_the_same_lamps() {
    let plan = plan(&demo::ember_walk());
    let [day, overcast, a, _] = Illuminant::ALL.map(|seen_in| picture(&plan, By::Within, seen_in));
    assert_eq!(day, overcast);
    assert_ne!(day, a);
    let lamp = |seen_in| Palette::new(&PaletteInputs::of(&plan).seen_in(seen_in)).lamp();
    for (seen_in, want) in [
        (Illuminant::Incandescent, Illuminant::Incandescent.lamp().expect("it is a lamp")),
        (Illuminant::Overcast, LAMP),
    ] {
        let got = lamp(seen_in);
        (1..3).for_each(|k| near("its color", (got[k] / got[0]).into(), (want[k] / want[0]).into(), 1e-5));
    }
}
