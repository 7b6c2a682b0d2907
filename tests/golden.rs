//! Pictures by their hashes, the same list here and in the browser (`tests/browser_golden.rs`): same recipe, same seed,
//! same bytes. `BLESS=1 cargo test --test golden` writes the list anew; look at the pictures before.

mod support;

use dappledome::base::seed::Seed;
use dappledome::picture::{Pixmap, png};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use std::fs;
use support::golden::{FILE, Line, lines, recipes, text_of};

fn draw(line: &Line) -> Pixmap {
    let recipe =
        recipes().into_iter().find(|recipe| recipe.title == line.recipe).expect("a recipe of the list");
    let plan = Plan::new(&recipe).expect("the recipes are sound").plan;
    Preview::new().picture(&plan, Seed(line.seed), &line.view)
}

#[test]
fn the_pictures_are_the_same_as_ever() {
    let mut now = lines();
    let mut changed = Vec::new();
    for line in &mut now {
        let picture = draw(line);
        let hash = format!("{:016x}", picture.hash());
        if hash != line.hash {
            let file = format!("target/golden/{}.png", line.name());
            fs::create_dir_all("target/golden").expect("the folder of failed pictures can be made");
            fs::write(&file, png::encode(&picture, &[])).expect("a failed picture can be written");
            changed.push(format!("{file}: {hash}, not {}", line.hash));
            line.hash = hash;
        }
    }
    if std::env::var_os("BLESS").is_some() {
        fs::write(FILE, text_of(&now)).expect("the list can be written");
    } else {
        assert!(changed.is_empty(), "changed pictures, drawn to look at:\n{}", changed.join("\n"));
    }
}

#[test]
fn the_list_has_every_recipe_stage_and_light() {
    let lines = lines();
    for recipe in recipes() {
        assert!(lines.iter().filter(|line| line.recipe == recipe.title).count() >= 5, "{}", recipe.title);
    }
    let mut pictures: Vec<_> = lines.iter().map(|line| &line.hash).collect();
    pictures.sort();
    pictures.dedup();
    assert_eq!(pictures.len(), lines.len(), "two lines with one picture");
}
