//! Other eyes.

use super::table::{near, rows};
use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::color::dichromacy::Sight;
use dappledome::color::difference::{de2000, to_lab};
use dappledome::color::srgb::{Linear, decode, encode};
use dappledome::optics::test_tile::swatch;
use dappledome::optics::told_apart::{Shows, confused};
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Fall, Recipe, demo};

/// Linear RGB to the cones of Viénot, Brettel & Mollon 1999 (long, middle, short), and back.
const CONES: [[f64; 3]; 3] =
    [[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.029_956_6, 0.184_309, 1.46709]];
const TO_LINEAR: [[f64; 3]; 3] = [
    [3.240_969_94, -1.537_383_18, -0.498_610_76],
    [-0.969_243_64, 1.875_967_50, 0.041_555_06],
    [0.055_630_08, -0.203_976_96, 1.056_971_51],
];
const COLORS: [Linear; 5] =
    [[0.8, 0.1, 0.1], [0.1, 0.5, 0.2], [0.05, 0.1, 0.7], [0.9, 0.8, 0.1], [0.4, 0.4, 0.4]];
const LACKING: [Sight; 3] = [Sight::Protan, Sight::Deutan, Sight::Tritan];

fn cones(color: Linear) -> [f64; 3] {
    CONES.map(|row| (0..3).map(|k| row[k] * f64::from(color[k])).sum())
}

#[test]
fn grays_stay_and_who_lacks_nothing_sees_all() {
    for gray in [0.0, 0.2, 1.0] {
        for sight in LACKING {
            for channel in sight.sees([gray; 3]) {
                near(&format!("{sight:?}"), channel.into(), gray.into(), 3e-5);
            }
        }
    }
    assert_eq!(COLORS.map(|color| Sight::Usual.sees(color)), COLORS);
}

/// The rows printed by Viénot, Brettel & Mollon 1999: a protanope's L' = 2.02344 M - 2.52581 S, a deuteranope's M' = 0.494207 L + 1.24827 S;
/// the two cones that they have are answered as before.
#[test]
fn protanopes_and_deuteranopes_see_by_the_published_rows() {
    for color in COLORS {
        let ([l, m, s], protan, deutan) =
            (cones(color), cones(Sight::Protan.sees(color)), cones(Sight::Deutan.sees(color)));
        for (got, want) in protan.into_iter().zip([2.02344 * m - 2.52581 * s, m, s]) {
            near("protan", got, want, 2e-3);
        }
        for (got, want) in deutan.into_iter().zip([l, 0.494207 * l + 1.24827 * s, s]) {
            near("deutan", got, want, 2e-3);
        }
    }
}

/// Brettel, Viénot & Mollon 1997: to a tritanope lights of 485 and 660 nm look as they do to all, long and middle cones are answered as before,
/// and the two half planes meet. (Chromaticities of those lights from the CIE 1931 observer; the matrices' five digits.)
#[test]
fn tritanopes_see_by_two_half_planes() {
    let table = rows("reference_weights_5nm.csv");
    for nm in [485.0, 660.0] {
        let row = table.iter().find(|row| row[0] == nm).expect("every 5 nm");
        let linear = TO_LINEAR.map(|of| (0..3).map(|k| of[k] * row[1 + k]).sum::<f64>());
        let most = linear.iter().fold(0.0, |most: f64, c| most.max(c.abs()));
        let color = linear.map(|c| (c / most) as f32);
        let seen = Sight::Tritan.sees(color);
        (0..3).for_each(|k| near(&format!("{nm} nm"), seen[k].into(), color[k].into(), 1e-3));
    }
    for color in COLORS {
        let (usual, tritan) = (cones(color), cones(Sight::Tritan.sees(color)));
        near("long", tritan[0], usual[0], 2e-3);
        near("middle", tritan[1], usual[1], 2e-3);
    }
    // The plane between: 0.0396 r - 0.02831 g - 0.01129 b = 0.
    let there = |off: f32| Sight::Tritan.sees([(0.02831 * 0.6 + 0.01129 * 0.2) / 0.0396 + off, 0.6, 0.2]);
    (0..3).for_each(|k| near("where they meet", there(1e-6)[k].into(), there(-1e-6)[k].into(), 3e-4));
}

/// Colors that differ in the lacking cones alone are one color, and what is seen is seen once and for all.
#[test]
fn confused_colors_fall_together() {
    for (lacking, sight) in LACKING.into_iter().enumerate() {
        // The way in linear RGB that only these cones answer, by cofactors.
        let [a, b] = [CONES[(lacking + 1) % 3], CONES[(lacking + 2) % 3]];
        let way = [0, 1, 2].map(|k| {
            let (i, j) = ((k + 1) % 3, (k + 2) % 3);
            a[i] * b[j] - a[j] * b[i]
        });
        let most = way.iter().fold(0.0, |most: f64, c| most.max(c.abs()));
        for color in COLORS {
            let other = [0, 1, 2].map(|k| color[k] + (0.05 * way[k] / most) as f32);
            let (one, other, again) = (sight.sees(color), sight.sees(other), sight.sees(sight.sees(color)));
            for k in 0..3 {
                near(&format!("{sight:?}"), other[k].into(), one[k].into(), 2e-4);
                near(&format!("{sight:?} again"), again[k].into(), one[k].into(), 2e-4);
            }
        }
    }
}

#[test]
fn a_picture_is_seen_pixel_by_pixel() {
    let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
    let view = View::usual(Stage::Domed, Light::Day, 64);
    let usual = Preview::new().picture(&plan, Seed(41), &view);
    for sight in LACKING {
        let seen = Preview::new().picture(&plan, Seed(41), &View { sight, ..view });
        for at in 0..64 {
            let want = encode(sight.sees(decode(usual.pixel(at, 40))));
            assert_eq!(seen.pixel(at, 40), want, "{sight:?} at {at}");
        }
    }
}

/// Two coats side by side, fired on white.
fn patches(one: &str, other: &str) -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.coats.remove(0);
    for (coat, glass) in recipe.coats.iter_mut().zip([one, other]) {
        coat.powder[0].glass = glass.into();
        if let Fall::Patches(patches) = &mut coat.fall {
            patches.depth = Mm(0.3);
        }
    }
    recipe
}

/// What is told is what the swatches are, seen by each.
#[test]
fn pairs_are_told_that_one_eye_confuses_and_others_do_not() {
    let (mut told, mut pairs) = (0, 0);
    for (one, other) in
        [("moss", "rust"), ("coral", "lagoon"), ("moss", "coral"), ("straw", "chalk"), ("moss", "umber")]
    {
        let plan = Plan::new(&patches(one, other)).expect("it is sound").plan;
        let ids = [plan.coats[0].sift.id, plan.coats[1].sift.id];
        let colors = ids.map(|id| decode(swatch(&plan, id).expect("it is a coat").1));
        let apart = |sight: Sight| de2000(to_lab(sight.sees(colors[0])), to_lab(sight.sees(colors[1])));
        for sight in LACKING {
            let usual = apart(Sight::Usual);
            let hard = usual > 10.0 && apart(sight) < 7.0 && apart(sight) < 0.65 * usual;
            let found = confused(&plan)
                .into_iter()
                .find(|pair| pair.sight == sight && pair.two == ids.map(Shows::Coat));
            println!("{one} and {other}, {sight:?}: {:.1} of {:.1}", apart(sight), apart(Sight::Usual));
            assert_eq!(found.is_some(), hard, "{one} and {other}, {sight:?}");
            if let Some(found) = found {
                near("apart", found.apart, apart(sight), 1e-9);
            }
            (told, pairs) = (told + u32::from(hard), pairs + 1);
        }
    }
    assert!(told > 0 && told < pairs, "{told} of {pairs}: both kinds must be tried");
}

#[test]
fn a_blank_under_a_coat_that_lies_everywhere_is_no_color() {
    let blank = |recipe: &Recipe| {
        let plan = Plan::new(recipe).expect("it is sound").plan;
        confused(&plan).iter().any(|pair| pair.two.contains(&Shows::Blank))
    };
    assert!(!blank(&demo::ember_walk()), "straw lies everywhere");
}

/// Rust and coral of Ember Walk are 11 apart for most, and 5 to 6 for each of the others.
#[test]
fn the_demos_rust_and_coral_are_told() {
    let recipe = demo::ember_walk();
    let ids = [recipe.coats[1].id, recipe.coats[2].id].map(Shows::Coat);
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let told = confused(&plan);
    for sight in LACKING {
        assert!(told.iter().any(|pair| pair.sight == sight && pair.two == ids), "{sight:?}: {told:?}");
    }
}

/// What a piece stands in is seen where it stands: not in flat color, and not of a disc that lies on the bench.
#[test]
fn flat_color_and_flat_discs_stand_nowhere() {
    let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
    let picture = |stage, light, around| {
        let view = View { around, ..View::usual(stage, light, 48) };
        Preview::new().picture(&plan, Seed(41), &view).rgba
    };
    let [studio, lawn, sky] = Surroundings::ALL;
    for (stage, light, differ) in [
        (Stage::Domed, Light::Gray, false),
        (Stage::Fused, Light::Day, false),
        (Stage::Domed, Light::Day, true),
        (Stage::Domed, Light::Within, true),
    ] {
        for around in [lawn, sky] {
            let same = picture(stage, light, around) == picture(stage, light, studio);
            assert_eq!(same, !differ, "{stage:?}, {light:?}, {around:?}");
        }
    }
}

/// Shaded by how sure its colors are, a piece is gray all over, its rim too, and the same in every light's flat color.
#[test]
fn a_shaded_piece_is_gray_all_over() {
    let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
    for stage in [Stage::Sifted, Stage::Fused, Stage::Domed] {
        let view =
            View { by_sureness: true, around: Surroundings::Lawn, ..View::usual(stage, Light::Day, 96) };
        let picture = Preview::new().picture(&plan, Seed(41), &view);
        assert!(
            picture.rgba.chunks_exact(4).all(|pixel| pixel[0] == pixel[1] && pixel[1] == pixel[2]),
            "{stage:?}"
        );
        let mut grays: Vec<u8> = picture.rgba.chunks_exact(4).map(|pixel| pixel[0]).collect();
        grays.sort_unstable();
        grays.dedup();
        assert!(grays.len() > 3, "{stage:?}: stripes, lines and the bare blank, {grays:?}");
    }
}
