//! What the colors of a plan will not do: pairs of coats whose difference is known.

use super::bench::*;
use dappledome::base::notice::Step;
use dappledome::optics::forewarn::notices;
use dappledome::recipe::{Coat, Recipe, Side};

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
    use dappledome::color::difference::{de2000, to_lab};
    let look = |straw: f64| Column::of(&WHITE).with(Glass::of(&[("straw", 1.0)]), 0.4 * straw).look(table());
    let lab = |color: [f64; 3]| to_lab(color.map(|channel| channel as f32));
    for (upper, expected) in (3..40).map(|step| (f64::from(step) * 0.01, 0.3)) {
        let difference = de2000(lab(look(expected)), lab(look(expected + upper)));
        if (difference - 6.0).abs() > 0.1 {
            let said = said(vec![even(1, "straw", 0.3), patches(2, "straw", upper, 0.3)]);
            assert_eq!(said.len(), usize::from(difference < 6.0), "{upper} mm more: {difference}");
        }
    }
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
