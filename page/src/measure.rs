//! The browser's own figures: the same workload as the native benches, timed by the shipped program.

use dappledome::base::order::sort;
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Fall, Number, Recipe, demo};
use wasm_bindgen::prelude::*;

/// Times the workload (Ember Walk with 24 accents, `size` cells and pixels) and gives, as lines of `name median least
/// p95` in ms, the whole preview from nothing and for a next seed, and what a change of glass, light, turn and tilt costs, and a
/// draft while a depth is dragged (`size` twice over, as on a screen); last, the memory all that took.
#[wasm_bindgen]
pub fn measure(size: u32, rounds: u32) -> String {
    let mut lines = String::new();
    let mut note = |name: &str, mut times: Vec<f64>| {
        sort(&mut times, |time| *time);
        let slow = times[(times.len() * 95 / 100).min(times.len() - 1)];
        lines += &format!(
            "{name} {} {} {}\n",
            fixed(times[times.len() / 2], 1),
            fixed(times[0], 1),
            fixed(slow, 1)
        );
    };
    let recipe = workload();
    let plan = planned(&recipe);
    let day = View::usual(Stage::Domed, Light::Day, size);
    note("cold", timed(rounds, |_| both(&mut Preview::new(), &plan, 1, size)));
    let mut preview = Preview::new();
    note("next-seed", timed(rounds, |i| both(&mut preview, &plan, i, size)));
    note(
        "light",
        timed(rounds, |i| {
            let light = if i % 2 == 0 { Light::Day } else { Light::Within };
            preview.picture(&plan, Seed(1), &View { light, ..day });
        }),
    );
    note(
        "turn",
        timed(rounds, |i| {
            preview.picture(&plan, Seed(1), &View { turn: i as f32, ..day });
        }),
    );
    note(
        "tilt",
        timed(rounds, |i| {
            preview.picture(&plan, Seed(1), &View { tilt: 20.0 + i as f32, ..day });
        }),
    );
    note(
        "glass",
        timed(rounds, |i| {
            let mut recipe = recipe.clone();
            recipe.coats[1].powder[0].glass = ["rust", "moss", "slate", "umber"][i as usize % 4].into();
            preview.picture(&planned(&recipe), Seed(1), &day);
        }),
    );
    let draft = View { size: size * 2, cells: View::QUICK_CELLS, ..day };
    note(
        "drag-of-a-depth",
        timed(rounds * 3, |i| {
            let mut recipe = recipe.clone();
            if let Fall::Patches(patches) = &mut recipe.coats[1].fall {
                patches.depth.0 = 0.3 + 0.01 * f64::from(i);
            }
            preview.picture(&planned(&recipe), Seed(1), &draft);
        }),
    );
    lines + &format!("memory-MB {}\n", fixed(memory(), 0))
}

/// The memory that this instance of the program has taken so far, in millions of bytes.
fn memory() -> f64 {
    let memory: js_sys::WebAssembly::Memory = wasm_bindgen::memory().unchecked_into();
    let bytes: js_sys::ArrayBuffer = memory.buffer().unchecked_into();
    f64::from(bytes.byte_length()) / 1e6
}

fn workload() -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.accents = Some(Accents { number: Number::Count(24), ..Accents::default() });
    recipe
}

fn planned(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("the workload is sound").plan
}

fn both(preview: &mut Preview, plan: &Plan, seed: u32, size: u32) {
    for stage in [Stage::Fused, Stage::Domed] {
        preview.picture(plan, Seed(seed), &View::usual(stage, Light::Day, size));
    }
}

/// How long each round took, ms; one more is done first and not counted.
fn timed(rounds: u32, mut work: impl FnMut(u32)) -> Vec<f64> {
    let clock =
        leptos::prelude::window().performance().expect("every browser that runs this page has a clock");
    (0..=rounds)
        .map(|round| {
            let start = clock.now();
            work(round);
            clock.now() - start
        })
        .skip(1)
        .collect()
}
