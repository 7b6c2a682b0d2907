//! The shipped program in a real browser draws the very same pictures as this one: every hash of the golden list.

mod support;

use dappledome::recipe::file;
use serde_json::Value;
use support::browser::Browser;
use support::golden::{lines, recipes};

#[test]
fn the_browser_draws_the_same_pictures() {
    let browser = Browser::start();
    let recipes = recipes();
    let mut differ = Vec::new();
    let lines = lines();
    for line in &lines {
        let recipe = recipes.iter().find(|recipe| recipe.title == line.recipe).expect("a recipe of the list");
        let arguments = [
            Value::from(file::write(recipe)),
            line.seed.into(),
            serde_json::to_string(&line.view).unwrap().into(),
        ];
        let arguments = Value::from(arguments.to_vec());
        let hash = browser.run_in_program(&format!("return program.picture_hash(...{arguments})"));
        if hash.as_str() != Some(line.hash.as_str()) {
            differ.push(format!("{}: {hash}, natively {}", line.name(), line.hash));
        }
    }
    assert!(!lines.is_empty() && differ.is_empty(), "{}", differ.join("\n"));
}
