//! The shipped program's worker in a real browser draws the very same pictures as this one: every hash of the golden
//! list.

mod support;

use dappledome::base::seed::Seed;
use dappledome::picture::Pixmap;
use dappledome::worker::protocol::{Answer, Job, Wanted};
use support::browser::Browser;
use support::golden::{lines, recipes};
use support::worker::Worker;

#[test]
fn the_browser_draws_the_same_pictures() {
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    let recipes = recipes();
    let mut differ = Vec::new();
    let lines = lines();
    for line in &lines {
        let recipe = recipes.iter().find(|recipe| recipe.title == line.recipe).expect("a recipe of the list");
        let wanted = vec![Wanted::Picture(line.view)];
        let job = Job { id: 1, recipe: recipe.clone(), seed: Seed(line.seed), wanted };
        let Some((Answer::Picture { width, height, .. }, rgba)) = worker.answers(&job).into_iter().next()
        else {
            panic!("no picture of {}", line.name());
        };
        let hash = format!("{:016x}", Pixmap { width, height, rgba }.hash());
        if hash != line.hash {
            differ.push(format!("{}: {hash}, natively {}", line.name(), line.hash));
        }
    }
    assert!(!lines.is_empty() && differ.is_empty(), "{}", differ.join("\n"));
}
