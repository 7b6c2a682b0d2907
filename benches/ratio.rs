//! What the engine takes for what a hand asks of it, next to a saved baseline: `cargo bench --bench ratio`, median and least of fifteen
//! rounds (of three, where one takes seconds), ms. `cargo bench --bench ratio -- save` saves the figures of a checkout in `target/ratio.csv`; a copy of that file in another
//! checkout is what its figures are divided by. Run the two in turn: machines swing.

use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Fall, Number, Recipe, demo};
use std::time::Instant;
use std::{env, fs};

/// Rounds of a workload, and of one that takes seconds; one more comes first and is not counted.
const ROUNDS: u32 = 15;
const FEW: u32 = 3;
const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/target/ratio.csv");

fn main() {
    let args: Vec<String> = env::args().skip(1).filter(|arg| arg != "--bench").collect();
    let save = args.iter().any(|arg| arg == "save");
    let asked = args.iter().find(|arg| *arg != "save");
    let before = fs::read_to_string(FILE).unwrap_or_default();
    assert!(!save || asked.is_none(), "all figures are saved together: leave the name away");
    println!("{:28}{:>10}{:>10}{:>10}{:>10}", "ms", "median", "least", "ratio", "of leasts");
    let mut figures = String::new();
    for (name, rounds, workload) in WORKLOADS {
        if asked.is_some_and(|asked| !name.contains(asked.as_str())) {
            continue;
        }
        let (median, least) = timed(rounds, workload);
        let [was, was_least] = baseline(&before, name).unwrap_or([f64::NAN; 2]);
        println!("{name:28}{median:10.2}{least:10.2}{:10.2}{:10.2}", was / median, was_least / least);
        figures += &format!("{name},{median:.3},{least:.3}\n");
    }
    if save {
        fs::create_dir_all(concat!(env!("CARGO_MANIFEST_DIR"), "/target")).expect("a folder for the figures");
        fs::write(FILE, figures).expect("the figures can be written");
    }
}

type Workload = fn() -> Box<dyn FnMut(u32)>;

const WORKLOADS: [(&str, u32, Workload); 9] = [
    ("next seed, flat and domed", ROUNDS, || repeated(|preview, round| both(preview, 1 + round))),
    ("cold, flat and domed", ROUNDS, || Box::new(|_| both(&mut Preview::new(), 1))),
    ("turn", ROUNDS, || looked(|view, round| view.turn = 3.0 * round as f32)),
    ("tilt", ROUNDS, || looked(|view, round| view.tilt = 20.0 + 0.1 * round as f32)),
    ("light", ROUNDS, || looked(|view, round| view.light = [Light::Within, Light::Day][round as usize % 2])),
    ("glass", ROUNDS, || {
        changed(512, |recipe, round| {
            recipe.coats[1].powder[0].glass = ["rust", "moss", "slate", "umber"][round as usize % 4].into();
        })
    }),
    ("depth dragged, draft", ROUNDS, || {
        changed(128, |recipe, round| {
            if let Fall::Patches(patches) = &mut recipe.coats[1].fall {
                patches.depth = Mm(0.3 + 0.01 * f64::from(round));
            }
        })
    }),
    ("4,096 pixels, domed", FEW, || {
        let view = View::usual(Stage::Domed, Light::Day, 4096);
        Box::new(move |_| {
            Preview::new().picture(&plan(&workload()), Seed(1), &view);
        })
    }),
    ("200 seeds at 192 cells", FEW, || {
        let view = View::usual(Stage::Domed, Light::Day, 192);
        repeated(move |preview, _| {
            for seed in 0..200 {
                preview.picture(&plan(&workload()), Seed(seed), &view);
            }
        })
    }),
];

/// Median and least, ms.
fn timed(rounds: u32, workload: Workload) -> (f64, f64) {
    let mut run = workload();
    run(0);
    let mut times: Vec<f64> = (1..=rounds)
        .map(|round| {
            let start = Instant::now();
            run(round);
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    (times[times.len() / 2], times[0])
}

fn baseline(text: &str, name: &str) -> Option<[f64; 2]> {
    let line = text.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(','))?;
    let (median, least) = line.split_once(',')?;
    Some([median.parse().ok()?, least.parse().ok()?])
}

fn workload() -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.accents = Some(Accents { number: Number::Count(24), ..Accents::default() });
    recipe
}

fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("the workload is sound").plan
}

fn both(preview: &mut Preview, seed: u32) {
    let plan = plan(&workload());
    for stage in [Stage::Fused, Stage::Domed] {
        preview.picture(&plan, Seed(seed), &View::usual(stage, Light::Day, 512));
    }
}

fn repeated(run: impl Fn(&mut Preview, u32) + 'static) -> Box<dyn FnMut(u32)> {
    let mut preview = Preview::new();
    Box::new(move |round| run(&mut preview, round))
}

fn looked(change: impl Fn(&mut View, u32) + 'static) -> Box<dyn FnMut(u32)> {
    repeated(move |preview, round| {
        let mut view = View::usual(Stage::Domed, Light::Day, 512);
        change(&mut view, round);
        preview.picture(&plan(&workload()), Seed(1), &view);
    })
}

fn changed(cells: u32, change: impl Fn(&mut Recipe, u32) + 'static) -> Box<dyn FnMut(u32)> {
    repeated(move |preview, round| {
        let mut recipe = workload();
        change(&mut recipe, round);
        let view = View { cells, ..View::usual(Stage::Domed, Light::Day, 2 * cells.min(256)) };
        preview.picture(&plan(&recipe), Seed(1), &view);
    })
}
