//! What came out against what was foretold: photos made from the engine's own pieces, where it is known what differs.

use dappledome::base::memo::Allowance;
use dappledome::base::scalar::sin_cos;
use dappledome::base::seed::Seed;
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::compare::by_place::by_place;
use dappledome::compare::foretold::{CELLS, places};
use dappledome::compare::hand::told;
use dappledome::compare::refit::refit;
use dappledome::compare::row::{Row, Says};
use dappledome::compare::rows::{rows, worst};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Fall, Part, Recipe, demo};

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

/// By hand: what lies to the right of the middle lies above it once it is turned by 90 degrees counterclockwise.
#[test]
fn a_turned_photo_is_laid_back_on_its_forecast() {
    let (mut preview, recipe) = (Preview::new(), demo::ember_walk());
    let field = preview.colors(&plan(&recipe), Seed(41), CELLS, &mut Allowance::unlimited()).unwrap();
    let radius = field.grid.disc().radius();
    for degrees in [0.0_f64, 37.0, 90.0, -140.5, 180.0] {
        let (sin, cos) = sin_cos(degrees.to_radians());
        let shows = |at: usize| {
            let along = |cell: usize| (2.0 * cell as f64 + 1.0) / CELLS as f64 - 1.0;
            let (x, y) = (along(at % CELLS), -along(at / CELLS));
            let (was_x, was_y) = (cos * x + sin * y, cos * y - sin * x);
            (x * x + y * y < 0.94 * 0.94)
                .then(|| to_lab(field.sample(was_x as f32 * radius, was_y as f32 * radius)))
        };
        let photo: Vec<Option<Lab>> = (0..CELLS * CELLS).map(shows).collect();
        let laid = by_place(&field, &photo, CELLS);
        let off = (laid.turned - degrees + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off.abs() <= 0.5, "{} for {degrees}", laid.turned);
        let apart: Vec<f64> =
            laid.cells.into_iter().flatten().map(|(fired, foretold)| de2000(fired, foretold)).collect();
        let near = apart.iter().filter(|apart| **apart < 4.0).count();
        assert!(apart.len() > 10_000 && near * 10 > apart.len() * 8, "{near} of {}", apart.len());
    }
}

/// Another jar lay in the place of rust: the glass that is fitted to what came out foretells the piece as it came out.
#[test]
fn a_glass_is_fitted_to_what_came_out() {
    let (straw, of_rust, _) = ids();
    let mut other = rust(0.45);
    other.coats[1].powder[0].glass = "umber".into();
    let seen = photo(&other, 42);
    let rows = compared(&rust(0.45), &seen);
    let found = row(&rows, &[straw, of_rust]);
    let before = found.fired.expect("it is seen").apart;
    let glass = refit(&plan(&rust(0.45)), found, ("rust_december".into(), "Rust, December".into()));
    let glass = glass.expect("one glass alone, on straw");
    let mut fitted = rust(0.45);
    fitted.coats[1].powder[0].glass = glass.id.clone();
    fitted.bring(&glass);
    let again = compared(&fitted, &seen);
    let after = row(&again, &[straw, of_rust]).fired.expect("it is seen").apart;
    println!("apart by {before:.1}, fitted by {after:.1}");
    assert!(before > 2.5 && after < 0.5 * before, "{before} {after}: {again:#?}");
    let mut blend = rust(0.45);
    blend.coats[1].powder =
        vec![Part { glass: "rust".into(), parts: 1.0 }, Part { glass: "coral".into(), parts: 1.0 }];
    assert_eq!(refit(&plan(&blend), found, ("a".into(), "A".into())), None, "which of the two?");
}
