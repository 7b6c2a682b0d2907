//! The published JSON Schemas (draft 2020-12) of recipe and order files are those this program has.

use dappledome::orders::model::Order;
use dappledome::recipe::{Recipe, demo, file};

/// `BLESS=1 cargo test --test schema` writes the files anew.
#[test]
fn the_published_schemas_are_current() {
    current("examples/recipe.schema.json", &schemars::schema_for!(Recipe));
    current("examples/order.schema.json", &schemars::schema_for!(Order));
}

fn current(file: &str, schema: &schemars::Schema) {
    let mut text = serde_json::to_string_pretty(schema).expect("a schema is JSON");
    text.push('\n');
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(file, &text).expect("the schema can be written");
    }
    let published = std::fs::read_to_string(file).unwrap_or_default();
    assert!(published == text, "{file} is out of date: BLESS=1 cargo test --test schema");
}

#[test]
fn what_is_written_reads_back_the_same() {
    let by_hand = file::read(include_str!("data/by_hand.json")).expect("a recipe");
    let fired = file::read(include_str!("data/fired.json")).expect("a recipe");
    for recipe in demo::all().into_iter().chain([by_hand, fired]) {
        assert_eq!(file::read(&file::write(&recipe)), Ok(recipe));
    }
}

#[test]
fn a_recipe_says_nothing_of_what_was_left_as_usual() {
    for recipe in demo::all() {
        let text = file::write(&recipe);
        for field in [
            "by_hand",
            "sponged_off",
            "taken_off",
            "\"slump\"",
            "\"stem\"",
            "\"tack\"",
            "\"dam\"",
            "\"programs\"",
        ] {
            assert!(!text.contains(field), "{} has {field}", recipe.title);
        }
    }
}
