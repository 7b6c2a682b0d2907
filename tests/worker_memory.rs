//! A worker's memory comes to a plateau: what it remembers is bounded, and what is made anew finds room where the old was.

mod support;

use dappledome::base::seed::Seed;
use dappledome::picture::{Light, Stage, View};
use dappledome::recipe::{Accents, Fall, Number, Recipe, demo};
use dappledome::worker::protocol::{Job, Wanted};
use support::browser::Browser;
use support::worker::Worker;

/// The most that the program of a worker takes, bytes.
const MOST: u64 = 120_000_000;

/// What it may still grow by in the second half, bytes: what is freed is not always found again whole.
const SETTLES: u64 = 4 << 20;

#[test]
fn two_hundred_seeds_and_five_hundred_edits_fit() {
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    worker.hire_watched();
    let mut recipe = demo::ember_walk();
    recipe.accents = Some(Accents { number: Number::Count(24), ..Accents::default() });
    let job = |recipe: &Recipe, seed, view| Job {
        id: 1,
        recipe: recipe.clone(),
        seed: Seed(seed),
        wanted: vec![Wanted::Picture(view)],
    };
    let stages = [Stage::Domed, Stage::Fused, Stage::Sifted];
    let mut grown = Vec::new();
    for part in 0..4 {
        // Fifty seeds, each drawn quickly and then finely, of one stage or another.
        let seeds = (0..50u32).flat_map(|i| {
            let fine = View::usual(stages[i as usize % 3], Light::Day, View::FINE_CELLS);
            [fine.quick(), fine].map(|view| job(&recipe, 1 + 50 * part + i, view))
        });
        worker.times(&seeds.collect::<Vec<_>>());
        // A hundred and twenty-five edits, every tenth of them drawn finely too, half of them lit from within.
        let edits = (0..125u32).flat_map(|i| {
            let mut edited = recipe.clone();
            if let Fall::Patches(patches) = &mut edited.coats[1].fall {
                patches.depth.0 = 0.2 + 0.005 * f64::from(i);
            }
            let light = [Light::Day, Light::Within][i as usize / 10 % 2];
            let fine = View::usual(Stage::Domed, light, View::FINE_CELLS);
            let views = if i % 10 == 9 { vec![fine.quick(), fine] } else { vec![fine.quick()] };
            views.into_iter().map(|view| job(&edited, 1, view)).collect::<Vec<_>>()
        });
        worker.times(&edits.collect::<Vec<_>>());
        grown.push(worker.memory());
    }
    println!("the worker's memory after every 50 seeds and 125 edits: {grown:?} bytes");
    assert!(grown.iter().all(|bytes| *bytes > 1 << 20 && *bytes <= MOST), "{grown:?}");
    assert!(grown[3] - grown[1] <= SETTLES, "it goes on growing: {grown:?}");
}
