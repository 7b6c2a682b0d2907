//! Any kiln file that parses is fired in or explains itself, and whatever is set, no program leaves its range.

use super::{HARBOR, bare, explained, fired, plan, sound};
use dappledome::base::firing::SegmentName;
use dappledome::base::notice::Severity;
use dappledome::base::units::{Celsius, Minutes};
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::kiln::firings::Firings;
use dappledome::recipe::{Accents, Pace, Recipe, SetSegment, demo};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Puts a value in the place of a leaf, counted through all.
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

fn strange() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(json!(0)),
        Just(json!(-1)),
        Just(json!(1e308)),
        Just(json!(1e-300)),
        Just(json!(null)),
        Just(json!("")),
        (0.0..1000.0f64).prop_map(Value::from),
        (0.0..40.0f64).prop_map(Value::from),
    ]
}

fn answered(text: &str, recipe: &Recipe) {
    match Kiln::read(text) {
        Err(notice) => explained(&notice),
        Ok(kiln) => {
            let plan = plan(recipe);
            match Firings::new(&plan, &kiln) {
                Ok(firings) => sound(&firings),
                Err(faults) => faults.iter().for_each(explained),
            }
        }
    }
}

fn setting() -> impl Strategy<Value = SetSegment> {
    let pace = prop_oneof![
        Just(None),
        Just(Some(Pace::AsItGoes)),
        (5.0..1000.0f64).prop_map(|r| Some(Pace::PerHour(r)))
    ];
    let names = prop_oneof![
        Just(SegmentName::Heat),
        Just(SegmentName::Squeeze),
        Just(SegmentName::Cool),
        Just(SegmentName::SecondCool),
    ];
    (names, pace, proptest::option::of(40.0..900.0f64), proptest::option::of(0.0..600.0f64)).prop_map(
        |(segment, pace, to, hold)| SetSegment {
            segment,
            pace,
            to: to.map(Celsius),
            hold: hold.map(Minutes),
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_kiln_with_strange_values_is_answered(changes in prop::collection::vec((0usize..24, strange()), 1..3)) {
        let mut value: Value = serde_json::from_str(HARBOR).unwrap();
        for (mut at, new) in changes {
            put(&mut value, &mut at, &new);
        }
        answered(&value.to_string(), &demo::ember_walk());
    }

    #[test]
    fn a_damaged_kiln_file_is_answered(cut in 0usize..HARBOR.len(), letter in any::<char>()) {
        if HARBOR.is_char_boundary(cut) {
            answered(&HARBOR[..cut], &Recipe::bare());
            answered(&format!("{}{letter}{}", &HARBOR[..cut], &HARBOR[cut..]), &Recipe::bare());
        }
    }

    #[test]
    fn no_program_leaves_its_range(
        thick in prop::collection::vec(1.0..10.0f64, 1..5),
        fuse in (740.0..840.0f64, 0.0..60.0f64),
        slump in (580.0..700.0f64, proptest::option::of(0.0..120.0f64)),
        one in setting(),
        other in setting(),
        power in 0.5..30.0f64,
        guess in prop_oneof![Just(Guess::SmallBrick), Just(Guess::LargeBrick), Just(Guess::Fiber)],
    ) {
        let mut recipe = bare(&thick);
        (recipe.fuse.top, recipe.fuse.hold) = (Celsius(fuse.0), Minutes(fuse.1));
        (recipe.slump.top, recipe.slump.hold) = (Celsius(slump.0), slump.1.map(Minutes));
        recipe.accents = Some(Accents::default());
        recipe.programs.full_fuse = vec![one];
        recipe.programs.slump = vec![other];
        recipe.programs.tack_fuse = vec![other];
        let firings = fired(&recipe, &Kiln { power, ..Kiln::guess(guess) });
        sound(&firings);
        let faults = firings.notices.iter().filter(|notice| notice.severity == Severity::Fault).count();
        prop_assert_eq!(firings.programs.len() + faults, 3);
    }
}
