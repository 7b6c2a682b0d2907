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
    for recipe in demo::all() {
        assert_eq!(file::read(&file::write(&recipe)), Ok(recipe));
    }
}
