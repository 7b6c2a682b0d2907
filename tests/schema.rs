//! The published JSON Schema (draft 2020-12) of the recipe file is the one this program has.

use dappledome::recipe::{Recipe, demo, file};

const PUBLISHED: &str = "examples/recipe.schema.json";

/// `BLESS=1 cargo test --test schema` writes the file anew.
#[test]
fn the_published_schema_is_current() {
    let schema = schemars::schema_for!(Recipe);
    let mut text = serde_json::to_string_pretty(&schema).expect("a schema is JSON");
    text.push('\n');
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(PUBLISHED, &text).expect("the schema can be written");
    }
    let published = std::fs::read_to_string(PUBLISHED).unwrap_or_default();
    assert!(published == text, "{PUBLISHED} is out of date: BLESS=1 cargo test --test schema");
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
        for field in
            ["by_hand", "sponged_off", "taken_off", "\"slump\"", "\"tack\"", "\"dam\"", "\"programs\""]
        {
            assert!(!text.contains(field), "{} has {field}", recipe.title);
        }
    }
}
