//! Any recipe that parses either plans or explains itself, and whatever plans can be drawn; any text is answered.

use dappledome::base::memo::Allowance;
use dappledome::base::notice::{Notice, Severity};
use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::layup::outlines::{lying, patch_at};
use dappledome::optics::forewarn;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Recipe, Rub, demo, file};
use dappledome::shop::stem::StemNeeds;
use proptest::prelude::*;
use serde_json::{Value, json};

/// The demo's files, one with something of everything that is done by hand, one with something of every firing, and one of own glasses that
/// do not go together.
const FILES: [&str; 8] = [
    demo::FILES[0],
    demo::FILES[1],
    demo::FILES[2],
    demo::FILES[3],
    demo::FILES[4],
    include_str!("data/by_hand.json"),
    include_str!("data/fired.json"),
    include_str!("data/own_glasses.json"),
];

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

/// A place: on the disc, or if it is hostile at times just off it or nowhere.
fn spot(hostile: bool) -> BoxedStrategy<[f64; 2]> {
    let sound = [-50.0..50.0f64, -50.0..50.0f64].boxed();
    let nowhere = || prop_oneof![-420.0..420.0f64, prop::num::f64::NORMAL];
    if hostile { prop_oneof![19 => sound, 1 => [nowhere(), nowhere()]].boxed() } else { sound }
}

/// A number within a range, or if it is hostile at times somewhat beyond.
fn width(hostile: bool, least: f64, most: f64) -> std::ops::Range<f64> {
    if hostile { least * 0.98..most * 1.02 } else { least..most }
}

/// At most so many, or if it is hostile at times more.
fn number(hostile: bool, most: usize) -> std::ops::Range<usize> {
    0..if hostile { most + most / 8 } else { most }
}

/// What is done by hand to the patches of a coat.
fn patches(hostile: bool) -> impl Strategy<Value = Value> {
    let by = spot(hostile).prop_map(|by| json!({ "by": by }));
    let goes = prop_oneof![1 => Just(json!("off")), 3 => by];
    let moved = (spot(hostile), goes).prop_map(|(at, goes)| json!({ "at": at, "goes": goes }));
    let added = (spot(hostile), width(hostile, 2.0, 120.0), any::<u32>());
    let added =
        added.prop_map(|(at, across, outline)| json!({ "at": at, "across": across, "outline": outline }));
    (prop::collection::vec(moved, number(hostile, 64)), prop::collection::vec(added, 0..4))
        .prop_map(|(moved, added)| json!({ "moved": moved, "added": added }))
}

fn rubs(hostile: bool) -> impl Strategy<Value = Value> {
    let path = prop::collection::vec(spot(hostile), number(hostile, 40));
    let rub = (width(hostile, 1.0, 60.0), path);
    let rub = rub.prop_map(|(width, path)| json!({ "width": width, "path": path }));
    prop::collection::vec(rub, 0..5).prop_map(Value::from)
}

fn accents(hostile: bool) -> impl Strategy<Value = Value> {
    let moved = (0..40u32, spot(hostile));
    let moved = moved.prop_map(|(number, [x, y])| json!({ "number": number, "x": x, "y": y }));
    let added = (spot(hostile), width(hostile, 0.5, 8.0));
    let added = added.prop_map(|([x, y], size)| json!({ "x": x, "y": y, "size": size }));
    let off = prop::collection::vec(0..90u32, number(hostile, 80));
    (prop::collection::vec(moved, 0..4), off, prop::collection::vec(added, 0..4)).prop_map(
        |(moved, off, added)| json!({ "locked_to": 3, "moved": moved, "taken_off": off, "added": added }),
    )
}

/// A stem, half the time at times with numbers just beyond what they may be.
fn stem() -> impl Strategy<Value = Value> {
    any::<bool>().prop_flat_map(|hostile| {
        let holed = width(hostile, 2.0, 10.0).prop_map(|fillet| json!({ "holed": { "fillet": fillet } }));
        let dabs = (3..13u32, width(hostile, 3.0, 12.0));
        let dabs = dabs.prop_map(|(count, across)| json!({ "dabs": { "count": count, "across": across } }));
        (
            prop::sample::select(&["1/2", "3/4", "1", "1 1/4", "1 1/2", "2"][..]),
            width(hostile, 100.0, 2500.0),
            width(hostile, 0.0, 1000.0),
            0..14u32,
            prop::sample::select(&["inside", "outside"][..]),
            prop_oneof![holed, dabs],
        )
            .prop_map(|(pipe, length, in_ground, stopper, on, joint)| {
                json!({
                    "pipe": pipe, "length": length, "in_ground": in_ground,
                    "stopper": stopper, "on": on, "joint": joint,
                })
            })
    })
}

/// The patches of two coats, the rubs and the accents: half the time sound, half the time at times not.
fn by_hand() -> impl Strategy<Value = [Value; 4]> {
    any::<bool>().prop_flat_map(|hostile| {
        (patches(hostile), patches(hostile), rubs(hostile), accents(hostile))
            .prop_map(|(one, other, rubs, accents)| [one, other, rubs, accents])
    })
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
            let mut notices = planned.notices;
            notices.extend(forewarn::notices(&planned.plan));
            assert!(notices.iter().all(|notice| notice.severity != Severity::Fault));
            if !notices.is_empty() {
                explained(&notices);
            }
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
        which in 0..FILES.len(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), strange()), 1..4),
    ) {
        let mut value: Value = serde_json::from_str(FILES[which]).unwrap();
        for (at, new) in changes {
            let mut at = at.index(leaves(&value));
            put(&mut value, &mut at, &new);
        }
        answered(&value.to_string());
    }

    #[test]
    fn whatever_is_done_by_hand_is_answered(
        coverage in prop_oneof![Just(0.0), Just(1e-300), 0.0..0.8f64],
        size in 5.0..80.0f64,
        [one, other, rubs, accents] in by_hand(),
    ) {
        let mut value: Value = serde_json::from_str(FILES[5]).unwrap();
        value["coats"][1]["fall"]["patches"]["coverage"] = json!(coverage);
        value["coats"][2]["fall"]["patches"]["size"] = json!(size);
        value["coats"][1]["layout"]["by_hand"] = one;
        value["coats"][2]["layout"]["by_hand"] = other;
        value["sponged_off"] = rubs;
        value["accents"]["layout"] = accents;
        answered(&value.to_string());
        let recipe: Recipe = serde_json::from_value(value).unwrap();
        if let Ok(planned) = Plan::new(&recipe) {
            for coat in &planned.plan.coats {
                let patches = lying(&coat.sift, Seed(1));
                patch_at(&patches, 3.0, 4.0);
                assert!(patches.iter().flat_map(|patch| &patch.outlines).all(|outline| outline.len() > 1));
            }
        }
    }

    #[test]
    fn any_stem_is_answered(stem in stem(), disc in 50.0..400.0f64, depth in 5.0..25.0f64) {
        let mut value: Value = serde_json::from_str(FILES[0]).unwrap();
        value["stem"] = stem;
        value["blank"]["diameter"] = json!(disc);
        value["mold"] = json!({ "form": "bowl", "opening": disc, "depth": depth });
        let recipe: Recipe = serde_json::from_value(value).unwrap();
        match Plan::new(&recipe) {
            Err(notices) => explained(&notices),
            Ok(planned) => {
                let dome = Preview::new().dome(&planned.plan, None, &mut Allowance::unlimited()).unwrap();
                let needs = StemNeeds::of(&planned.plan, &dome).expect("it has a stem");
                let [least, mean, most] = needs.inserted;
                prop_assert!(Mm(0.0) < least && least < mean && mean < most && most < Mm(25.0), "{:?}", needs);
                prop_assert!(needs.silicone > 0.0 && needs.silicone < 30.0 && needs.cured[0] <= needs.cured[1], "{:?}", needs);
                prop_assert!(needs.winds.windows(2).all(|pair| pair[0].depth < pair[1].depth), "{:?}", needs.winds);
                prop_assert!(needs.winds[3].depth < Mm(3000.0), "{:?}", needs.winds);
            }
        }
    }

    #[test]
    fn a_damaged_file_is_answered(which in 0..FILES.len(), cut in any::<prop::sample::Index>(), letter in any::<char>()) {
        let text = FILES[which];
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
    for text in FILES {
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

#[test]
fn too_much_by_hand_is_a_fault_each() {
    let mut recipe: Recipe = serde_json::from_str(FILES[5]).unwrap();
    let hand = &mut recipe.coats[1].layout.by_hand;
    hand.moved = vec![hand.moved[0].clone(); 1_000_000];
    let rub = Rub { width: Mm(60.0), path: [[-400.0, 0.0], [400.0, 0.0]].repeat(20) };
    recipe.sponged_off = vec![rub; 200];
    recipe.accents.as_mut().unwrap().layout.taken_off = vec![1; 1_000_000];
    let notices = Plan::new(&recipe).expect_err("it cannot be made");
    explained(&notices);
    let faults: Vec<&str> = notices.iter().map(|notice| notice.what.as_str()).collect();
    assert_eq!(faults, ["Too much by hand.", "Rubbed over and over.", "Too much by hand."], "{notices:#?}");
}

#[test]
fn glasses_that_do_not_go_together_are_told_all_of_it() {
    let recipe: Recipe = serde_json::from_str(FILES[7]).unwrap();
    let planned = Plan::new(&recipe).expect("it can be made");
    let mut notices = planned.notices;
    notices.extend(forewarn::notices(&planned.plan));
    explained(&notices);
    let whats: Vec<&str> = notices.iter().map(|notice| notice.what.as_str()).collect();
    for what in ["Won't fit.", "May not fit.", "May darken.", "Must strike.", "Hides what lies below."] {
        assert!(whats.contains(&what), "{what} is not in {whats:?}");
    }
    assert!(whats.iter().any(|what| what.starts_with("Too thin to cover: ")), "{whats:?}");
}
