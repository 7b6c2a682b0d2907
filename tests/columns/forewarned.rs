//! What the colors of a plan will not do: pairs of coats whose difference is known.

use super::bench::*;
use dappledome::base::notice::Notice;
use dappledome::base::notice::Step;
use dappledome::base::scalar::exp;
use dappledome::base::units::Mm;
use dappledome::color::difference::{de2000, to_lab};
use dappledome::fuse::leveling::LEVELING;
use dappledome::glass;
use dappledome::optics::forewarn::notices;
use dappledome::recipe::{Coat, Part, Recipe, Side, mend};

const WHITE: [(&str, f64); 1] = [("white", 3.0)];

/// Which coats are said to read as one color, and on what.
fn said(coats: Vec<Coat>) -> Vec<(Step, String)> {
    notices(&plan(&recipe(&WHITE, coats))).into_iter().map(|notice| (notice.step, notice.why)).collect()
}

/// Clear on anything is no color of its own; slate on straw is. Every coat below counts, the ground first.
#[test]
fn a_coat_is_held_against_every_coat_below_it() {
    let clear_on = |lower: &str| (Step::Coat(3), format!("Clear over {lower} fires almost to {lower}."));
    let upper = patches(3, "clear", 0.3, 0.3);
    let coats = vec![even(1, "straw", 0.3), patches(2, "slate", 0.4, 0.3), upper.clone()];
    assert_eq!(said(coats), [clear_on("straw"), clear_on("slate")]);
    assert_eq!(said(vec![even(1, "straw", 0.3), patches(2, "slate", 0.4, 0.3)]), []);
    let ground = vec![even(1, "straw", 0.3), even(3, "clear", 0.3)];
    assert_eq!(said(ground), [], "an even coat is no pattern that could be lost");
    let thick = vec![even(1, "straw", 0.3), thick_and_thin(3, "clear", 0.05, 0.4)];
    assert_eq!(said(thick), [clear_on("straw")]);
}

/// Six CIEDE2000 are the limit: depths of one powder on each other, to either side of it, by the columns of their own.
#[test]
fn six_ciede2000_read_as_two_colors() {
    let look = |straw: f64| Column::of(&WHITE).with(Glass::of(&[("straw", 1.0)]), 0.4 * straw).look(table());
    for (upper, expected) in (3..40).map(|step| (f64::from(step) * 0.01, 0.3)) {
        let difference = de2000(lab(look(expected)), lab(look(expected + upper)));
        if (difference - 6.0).abs() > 0.1 {
            let said = said(vec![even(1, "straw", 0.3), patches(2, "straw", upper, 0.3)]);
            assert_eq!(said.len(), usize::from(difference < 6.0), "{upper} mm more: {difference}");
        }
    }
}

fn lab(color: [f64; 3]) -> [f64; 3] {
    to_lab(color.map(|channel| channel as f32))
}

/// White and black below a coat read as one color, by columns of their own: then nothing shows through it, be it opal or dark, and the depth
/// that is advised lets twice as much through.
#[test]
fn what_lets_nothing_through_is_said() {
    let mut told = Vec::new();
    let uppers: [&[(&str, f64)]; 4] =
        [&[("chalk", 9.0), ("umber", 1.0)], &[("umber", 1.0)], &[("chalk", 1.0)], &[("straw", 1.0)]];
    for upper in uppers {
        let through = |depth: f64| {
            let [white, black] = [1.0, 0.0]
                .map(|base| lab(Column::default().with(Glass::of(upper), 0.45 * depth).look_on_base(base)));
            de2000(white, black)
        };
        for depth in (5..60).map(|step| f64::from(step) * 0.05) {
            let mut recipe = recipe(&WHITE, vec![even(1, "straw", 0.3), even(2, "chalk", depth)]);
            recipe.coats[1].powder =
                upper.iter().map(|(glass, parts)| Part { glass: (*glass).into(), parts: *parts }).collect();
            recipe.packing = 0.45;
            let hides = |recipe: &Recipe| {
                let hides = |notice: &Notice| notice.what == "Hides what lies below.";
                notices(&plan(recipe)).into_iter().find(hides)
            };
            let said = hides(&recipe);
            if (through(depth) - 6.0).abs() > 0.1 {
                assert_eq!(said.is_some(), through(depth) < 6.0, "{upper:?}, {depth} mm: {}", through(depth));
            }
            if let Some(Notice { step, why, mend: Some(advised), .. }) = said {
                assert!(why.contains(if upper.len() > 1 { " so opal " } else { " so dark " }), "{why}");
                mend::apply(&mut recipe, step, advised);
                assert_eq!(hides(&recipe), None);
                let sifted = f64::from(plan(&recipe).coats[1].sift.depth());
                assert!(
                    (12.0..14.0).contains(&through(sifted)),
                    "{upper:?}: {sifted} mm, {}",
                    through(sifted)
                );
                told.push(upper);
            }
        }
    }
    told.dedup();
    assert_eq!(told, uppers[..2], "chalk alone lets some through at 3 mm, straw is a filter");
    let patches = vec![even(1, "straw", 0.3), patches(2, "umber", 2.9, 0.3)];
    assert_eq!(said(patches), [], "patches leave the rest open");
}

/// Grains of 0.03 to 0.5 mm: one standard deviation of depth to either side, by the formula of a compound Poisson count, by columns of their
/// own.
#[test]
fn grains_that_show_are_said() {
    let mut told = [0, 0];
    // Beyond 0.5 mm they leave so much bare that this is said instead.
    for grain in (3..50).map(|step| 0.01 * f64::from(step)) {
        let powder = glass::kind::Glass {
            id: "own".into(),
            grain: Mm(grain),
            ..glass::catalogue::find("rust").unwrap().clone()
        };
        let mut recipe = recipe(&WHITE, vec![even(1, "own", 1.2)]);
        recipe.packing = 0.45;
        recipe.bring(&powder);
        let pi = std::f64::consts::PI;
        let volume = pi / 6.0 * grain * grain * grain * exp(13.5 * 0.35 * 0.35);
        let seen_over = 0.25 * 0.25 + 4.0 * pi * f64::from(LEVELING * LEVELING);
        let varies = (volume / (0.54 * seen_over)).sqrt();
        let [thin, thick] = [1.0 - varies, 1.0 + varies].map(|share| {
            lab(Column::of(&WHITE).with(Glass::of(&[("rust", 1.0)]), 0.54 * share).look(table()))
        });
        let apart = de2000(thin, thick);
        let said = notices(&plan(&recipe)).iter().any(|notice| notice.what == "Speckle shows.");
        if (apart - 6.0).abs() > 0.2 {
            assert_eq!(said, apart > 6.0, "{grain} mm: {apart}");
        }
        told[usize::from(said)] += 1;
    }
    assert!(told[0] > 5 && told[1] > 5, "{told:?}");
}

/// Powder inside is out of sight behind an opaque sheet, not behind a clear one.
#[test]
fn powder_inside_is_seen_through_clear_only() {
    let count = |sheets: &[(&str, f64)], coats, side| {
        notices(&plan(&Recipe { powder_side: side, ..recipe(sheets, coats) })).len()
    };
    let coat = || vec![even(1, "rust", 0.3)];
    assert_eq!(count(&WHITE, coat(), Side::In), 1);
    assert_eq!(count(&WHITE, coat(), Side::Out), 0);
    assert_eq!(count(&WHITE, Vec::new(), Side::In), 0);
    assert_eq!(count(&[("clear", 3.0), ("clear", 3.0)], coat(), Side::In), 0);
    assert_eq!(count(&[("clear", 3.0), ("white", 2.0)], coat(), Side::In), 1);
}
