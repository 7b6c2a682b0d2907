//! Any recipe that parses either plans or explains itself, and whatever plans can be drawn; any text is answered.

use dappledome::base::notice::{Notice, Severity};
use dappledome::base::seed::Seed;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Recipe, demo, file};
use proptest::prelude::*;
use serde_json::{Value, json};

/// A place in a JSON value, counted through all its leaves, and what is put there.
fn put(value: &mut Value, at: &mut usize, new: &Value) {
    match value {
        Value::Array(items) if !items.is_empty() => items.iter_mut().for_each(|item| put(item, at, new)),
        Value::Object(fields) => fields.values_mut().for_each(|field| put(field, at, new)),
        leaf => {
            if *at == 0 {
                *leaf = new.clone();
            }
            *at = at.wrapping_sub(1);
        }
    }
}

fn leaves(value: &Value) -> usize {
    match value {
        Value::Array(items) if !items.is_empty() => items.iter().map(leaves).sum(),
        Value::Object(fields) => fields.values().map(leaves).sum(),
        _ => 1,
    }
}

fn strange() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(json!(0)),
        Just(json!(-1)),
        Just(json!(1e308)),
        Just(json!(-1e9)),
        Just(json!(1e-300)),
        Just(json!(4294967295u32)),
        Just(json!(null)),
        Just(json!("")),
        Just(json!("straw")),
        Just(json!([])),
        Just(json!({})),
        (0.0..400.0f64).prop_map(Value::from),
        (0.0..1.0f64).prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
    ]
}

fn explained(notices: &[Notice]) {
    assert!(!notices.is_empty());
    for notice in notices {
        for part in [&notice.what, &notice.why, &notice.remedy] {
            assert!(part.chars().count() > 3 && part.ends_with('.'), "{notice:?}");
        }
    }
}

/// Plans and draws a recipe, or checks that its faults are explained.
fn answered(text: &str) {
    let recipe = match file::read(text) {
        Ok(recipe) => recipe,
        Err(refusal) => return explained(&[refusal]),
    };
    match Plan::new(&recipe) {
        Err(notices) => {
            explained(&notices);
            assert!(notices.iter().any(|notice| notice.severity == Severity::Fault));
        }
        Ok(planned) => {
            assert!(planned.notices.iter().all(|notice| notice.severity != Severity::Fault));
            let mut preview = Preview::new();
            for stage in [Stage::Sifted, Stage::Fused, Stage::Domed] {
                let picture = preview.picture(&planned.plan, Seed(1), &View::usual(stage, Light::Day, 32));
                assert_eq!(picture.width, 32);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 240, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_recipe_with_strange_values_is_answered(
        which in 0..5usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), strange()), 1..4),
    ) {
        let mut value: Value = serde_json::from_str(demo::FILES[which]).unwrap();
        for (at, new) in changes {
            let mut at = at.index(leaves(&value));
            put(&mut value, &mut at, &new);
        }
        answered(&value.to_string());
    }

    #[test]
    fn a_damaged_file_is_answered(which in 0..5usize, cut in any::<prop::sample::Index>(), letter in any::<char>()) {
        let text = demo::FILES[which];
        let at = cut.index(text.len());
        if text.is_char_boundary(at) {
            answered(&text[..at]);
            answered(&format!("{}{letter}{}", &text[..at], &text[at..]));
        }
    }
}

#[test]
fn three_faults_are_three_reports() {
    let mut recipe = demo::ember_walk();
    recipe.blank.diameter.0 = 1e9;
    recipe.coats[1].powder[0].glass = "unobtainium".into();
    recipe.mold.depth.0 = f64::NAN;
    let notices = Plan::new(&recipe).expect_err("it cannot be made");
    explained(&notices);
    assert_eq!(notices.iter().filter(|notice| notice.severity == Severity::Fault).count(), 3, "{notices:#?}");
}

#[test]
fn a_million_coats_are_one_fault() {
    let mut recipe = demo::ember_walk();
    recipe.coats = vec![recipe.coats[0].clone(); 1_000_000];
    let notices = Plan::new(&recipe).expect_err("it cannot be made");
    explained(&notices);
    assert_eq!(notices.len(), 1, "{notices:#?}");
}

#[test]
fn faults_of_files_are_told_apart() {
    let text = demo::FILES[0];
    for (text, what) in [
        (text.replace("\"version\": 1", "\"version\": 7"), "A recipe of another version."),
        (text.replace("\"version\": 1,", ""), "A recipe with a mistake in it."),
        (text.replace("\"blank\"", "\"blanc\""), "A recipe with a mistake in it."),
        (text[..text.len() / 2].to_owned(), "The recipe file ends too early."),
        (text.replace("0.26", "NaN"), "Not a recipe file."),
        ("PK\u{3}\u{4}".into(), "Not a recipe file."),
        (String::new(), "The recipe file ends too early."),
        ("[".repeat(500_000), "Not a recipe file."),
        (" ".repeat(2 << 20), "Too large for a recipe."),
    ] {
        let refusal = file::read(&text).expect_err("it is no recipe");
        assert_eq!(refusal.what, what, "{}", refusal.why);
        explained(&[refusal]);
    }
}

#[test]
fn every_number_of_a_recipe_is_checked() {
    let mut unchecked = Vec::new();
    for text in demo::FILES {
        let value: Value = serde_json::from_str(text).unwrap();
        for leaf in 0..leaves(&value) {
            let mut changed = value.clone();
            put(&mut changed, &mut leaf.clone(), &json!(1e30));
            if let Ok(recipe) = serde_json::from_value::<Recipe>(changed)
                && Plan::new(&recipe).is_ok()
            {
                unchecked.push(leaf);
            }
        }
    }
    assert!(unchecked.is_empty(), "leaves that may be 1e30: {unchecked:?}");
}
