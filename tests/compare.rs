//! What came out against what was foretold: photos made from the engine's own pieces, where it is known what differs.

use dappledome::base::seed::Seed;
use dappledome::color::difference::Lab;
use dappledome::compare::foretold::places;
use dappledome::compare::hand::told;
use dappledome::compare::row::{Row, Says};
use dappledome::compare::rows::{rows, worst};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Fall, Recipe, demo};

fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("it is sound").plan
}

/// What a camera sees of a recipe inside the rim, place by place.
fn photo(recipe: &Recipe, seed: u32) -> Vec<Lab> {
    places(&mut Preview::new(), &plan(recipe), Seed(seed))
}

fn compared(recipe: &Recipe, photo: &[Lab]) -> Vec<Row> {
    rows(&mut Preview::new(), &plan(recipe), Seed(41), photo)
}

/// Its second coat, patches of rust, so deep.
fn rust(depth: f64) -> Recipe {
    let mut recipe = demo::ember_walk();
    let Fall::Patches(patches) = &mut recipe.coats[1].fall else { panic!("its second coat") };
    patches.depth.0 = depth;
    recipe
}

fn row<'a>(rows: &'a [Row], coats: &[u32]) -> &'a Row {
    rows.iter().find(|row| row.coats == coats).unwrap_or_else(|| panic!("no {coats:?} in {rows:#?}"))
}

fn ids() -> (u32, u32, u32) {
    let recipe = demo::ember_walk();
    (recipe.coats[0].id, recipe.coats[1].id, recipe.coats[2].id)
}

/// Of twenty other layouts, few rows may be called otherwise: the layouts that they are judged by are five.
#[test]
fn another_layout_of_the_same_piece_came_out_as_reckoned() {
    let (mut all, mut otherwise) = (0, 0);
    for seed in 100..120 {
        let rows = compared(&demo::ember_walk(), &photo(&demo::ember_walk(), seed));
        assert!(rows.len() >= 3, "{rows:#?}");
        all += rows.len();
        otherwise += rows.iter().filter(|row| row.is_off()).count();
        for row in rows {
            let fired = row.fired.expect("every color is there");
            assert!((fired.share - row.share).abs() < 0.15, "{seed}: {row:?}");
        }
    }
    println!("{otherwise} of {all} rows are called otherwise");
    assert!(otherwise * 50 <= all, "{otherwise} of {all}");
}

#[test]
fn a_coat_that_was_sifted_deeper_is_found_with_its_depth() {
    let (straw, of_rust, _) = ids();
    for (depth, seed) in [(0.8, 41), (0.8, 42), (0.25, 42), (0.25, 43)] {
        let rows = compared(&rust(0.45), &photo(&rust(depth), seed));
        let found = row(&rows, &[straw, of_rust]);
        let Some(Says::AsIf(mm)) = found.fired.map(|fired| fired.says) else { panic!("{depth}: {rows:#?}") };
        assert!((mm.0 / depth - 1.0).abs() < 0.15, "{} of {depth}", mm.0);
        assert_eq!(worst(&rows), Some(found));
        assert_eq!(row(&rows, &[straw]).fired.map(|fired| fired.says), Some(Says::AsReckoned));
    }
}

#[test]
fn another_jar_is_told_from_another_depth() {
    let (straw, of_rust, _) = ids();
    let mut other = rust(0.45);
    other.coats[1].powder[0].glass = "moss".into();
    let rows = compared(&rust(0.45), &photo(&other, 42));
    let found = row(&rows, &[straw, of_rust]).fired;
    assert!(found.is_none_or(|fired| matches!(fired.says, Says::Other | Says::AsIfAndOther(_))), "{rows:#?}");
}

/// A photo whose white is warm: everything is yellower, and the bare blank tells why.
#[test]
fn a_warm_photo_is_told_by_the_bare_white() {
    let warm: Vec<Lab> =
        photo(&demo::ember_walk(), 42).into_iter().map(|[l, a, b]| [l, a + 3.0, b + 14.0]).collect();
    let rows = compared(&demo::ember_walk(), &warm);
    assert_eq!(row(&rows, &[]).fired.map(|fired| fired.says), Some(Says::Light), "{rows:#?}");
}

/// A tenth of the photo is a green finger, and noise of 3 lies on all of it.
#[test]
fn a_finger_and_noise_change_nothing() {
    let mut seen = photo(&demo::ember_walk(), 41);
    for (at, color) in seen.iter_mut().enumerate() {
        let noise = [7, 11, 13].map(|prime| ((at * prime) % 61) as f64 / 10.0 - 3.0);
        *color = if at % 10 == 0 { [45.0, -60.0, 20.0] } else { [0, 1, 2].map(|k| color[k] + noise[k]) };
    }
    let rows = compared(&demo::ember_walk(), &seen);
    assert!(
        rows.iter().all(|row| row.fired.is_some_and(|fired| fired.says == Says::AsReckoned)),
        "{rows:#?}"
    );
}

#[test]
fn a_color_that_is_not_there_is_not_seen() {
    let mut without = demo::ember_walk();
    without.coats.truncate(1);
    without.sponge = None;
    let rows = compared(&demo::ember_walk(), &photo(&without, 41));
    let (straw, of_rust, coral) = ids();
    assert!(row(&rows, &[straw]).fired.is_some());
    assert_eq!(row(&rows, &[straw, of_rust, coral]).fired, None, "{rows:#?}");
    assert!(compared(&demo::ember_walk(), &[]).iter().all(|row| row.fired.is_none()), "nor in no photo");
}

/// A hand that sifts rust 1.8 times as deep, and the rest as asked.
#[test]
fn a_hand_is_told_by_the_coats_that_lie_free() {
    let recipe = rust(0.45);
    let rows = compared(&recipe, &photo(&rust(0.81), 42));
    let coats = told(&plan(&recipe), &rows);
    let deepest = coats.iter().map(|told| told.deeper).fold(0.0, f64::max);
    assert!(coats.len() >= 2 && (deepest / 1.8 - 1.0).abs() < 0.15, "{coats:?}");
    assert!(coats.iter().all(|told| told.covers.abs() < 0.15), "{coats:?}");
}
