//! What cannot be made at its size is said, with a reason and a remedy.

use dappledome::base::notice::{Notice, Severity};
use dappledome::base::units::Mm;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Form, Mold, Recipe, Sheet};

fn recipe(disc: f64, sheets: &[f64], mold: Mold) -> Recipe {
    let mut recipe = Recipe::bare();
    recipe.blank.diameter = Mm(disc);
    recipe.blank.sheets =
        sheets.iter().map(|thickness| Sheet { glass: "clear".into(), thickness: Mm(*thickness) }).collect();
    recipe.mold = mold;
    recipe
}

fn mold(form: Form, opening: f64, depth: f64) -> Mold {
    Mold { form, opening: Mm(opening), depth: Mm(depth) }
}

/// What is said of a recipe, faults or not.
fn said(recipe: &Recipe) -> Vec<Notice> {
    Plan::new(recipe).map_or_else(|faults| faults, |planned| planned.notices)
}

fn says(recipe: &Recipe, what: &str, severity: Severity) -> bool {
    let there = said(recipe).into_iter().find(|notice| notice.what == what);
    there.is_some_and(|notice| {
        assert!(!notice.why.is_empty() && !notice.remedy.is_empty());
        notice.severity == severity
    })
}

#[test]
fn a_block_of_glass_is_no_sheet() {
    let bowl = |opening: f64| mold(Form::Bowl, opening, 15.0);
    assert!(says(&recipe(50.0, &[10.0; 4], bowl(50.0)), "A block, not a sheet.", Severity::Fault));
    assert!(says(&recipe(119.0, &[10.0; 4], bowl(119.0)), "A block, not a sheet.", Severity::Fault));
    assert!(!says(&recipe(121.0, &[10.0; 4], bowl(121.0)), "A block, not a sheet.", Severity::Fault));
    assert!(Plan::new(&recipe(50.0, &[3.0, 3.0], bowl(50.0))).is_ok());
}

#[test]
fn a_disc_far_wider_than_its_hump_is_refused() {
    let hump = |opening: f64| mold(Form::Hump, opening, 20.0);
    assert!(says(&recipe(400.0, &[3.0, 3.0], hump(50.0)), "Too wide for its hump.", Severity::Fault));
    assert!(says(&recipe(151.0, &[3.0, 3.0], hump(100.0)), "Too wide for its hump.", Severity::Fault));
    assert!(Plan::new(&recipe(149.0, &[3.0, 3.0], hump(100.0))).is_ok(), "it may only catch");
}

#[test]
fn glass_too_thick_for_a_corner_bridges_it() {
    for form in [
        |corner| Form::FlatBottom { bottom: Mm(90.0), corner: Mm(corner) },
        |corner| Form::Flare { bottom: Mm(90.0), corner: Mm(corner) },
    ] {
        for (corner, bridges) in [(0.0, true), (4.0, true), (5.9, true), (6.0, false), (20.0, false)] {
            let recipe = recipe(160.0, &[3.0, 3.0], mold(form(corner), 160.0, 35.0));
            assert!(Plan::new(&recipe).is_ok(), "a corner of {corner}");
            assert_eq!(says(&recipe, "Bridges its corner.", Severity::Risk), bridges, "a corner of {corner}");
        }
    }
}
