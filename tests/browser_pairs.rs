//! The shipped program's worker draws the very same pictures as this one for five hundred recipes, seeds and views drawn at random, up to
//! 1,024 pixels wide.

mod support;

use dappledome::picture::Pixmap;
use dappledome::preview::Preview;
use dappledome::worker::protocol::{Answer, Job, Wanted};
use support::browser::Browser;
use support::pairs::{Pair, drawn};
use support::worker::Worker;

#[test]
fn the_browser_draws_the_same_pictures_of_any_recipe() {
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    let pairs = drawn(500);
    let (mut differ, mut native) = (Vec::new(), Preview::new());
    for (at, Pair { recipe, plan, seed, view }) in pairs.iter().enumerate() {
        let job = Job { id: 1, recipe: recipe.clone(), seed: *seed, wanted: vec![Wanted::Picture(*view)] };
        let Some((Answer::Picture { width, height, .. }, rgba)) = worker.answers(&job).into_iter().next()
        else {
            panic!("no picture of pair {at}");
        };
        if (Pixmap { width, height, rgba }) != native.picture(plan, *seed, view) {
            differ.push(format!("{at}: {}, seed {}, {view:?}", recipe.title, seed.0));
        }
    }
    assert!(differ.is_empty(), "{} differ:\n{}", differ.len(), differ.join("\n"));
    for wide in [512, 1024] {
        assert_eq!(pairs.iter().filter(|pair| pair.view.size == wide).count(), 5, "{wide} pixels");
    }
}
