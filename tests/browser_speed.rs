//! The browser's figures, printed, from the shipped program and the running page. Nothing is asserted about a time: this
//! machine is not yours. `cargo test --release --test browser_speed -- --nocapture`.

mod support;

use dappledome::base::seed::Seed;
use dappledome::base::units::Grams;
use dappledome::color::typed;
use dappledome::glass::catalogue;
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::Glass;
use dappledome::glass::material::Material;
use dappledome::orders::model::{Jar, Line, Order};
use dappledome::picture::{Light, Stage, View};
use dappledome::recipe::{Accents, Fall, Number, Recipe, demo};
use dappledome::worker::asked::{DeskJob, FindJob, OrderJob, SeenOn};
use dappledome::worker::protocol::{Job, Wanted, written};
use jiff::civil::date;
use serde_json::{Value, json};
use support::browser::Browser;
use support::page::{opened, press};
use support::site::page_url;
use support::worker::Worker;

/// Pictures of the large canvas so far, and when the first one came, ms after navigation.
const WATCH: &str = "window.__first = 0;
    const put = CanvasRenderingContext2D.prototype.putImageData;
    CanvasRenderingContext2D.prototype.putImageData = function (...given) {
        if (!window.__first && this.canvas.closest('[role=application]')) window.__first = performance.now();
        return put.apply(this, given);
    };";

/// The workload of the native benches, asked of the worker: from a job posted to its first picture.
#[test]
fn figures_of_the_engine() {
    const ROUNDS: u32 = 15;
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    for size in [View::DRAFT_CELLS, View::FINE_CELLS] {
        println!("from a job to its picture, {size} cells, ms: median least p95");
        let day = View::usual(Stage::Domed, Light::Day, size);
        let fused = View { stage: Stage::Fused, ..day };
        let job = |recipe: &Recipe, seed, view| Job {
            id: 1,
            recipe: recipe.clone(),
            seed: Seed(seed),
            wanted: vec![Wanted::Picture(view)],
        };
        // One more round is done first and not counted.
        let figures = |name, job: &dyn Fn(u32) -> Job| {
            let jobs: Vec<_> = (0..=ROUNDS).map(job).collect();
            figure(name, worker.times(&jobs)[1..].to_vec());
        };
        let recipe = workload();
        let cold = (0..ROUNDS).map(|_| {
            worker.hire_another();
            worker.times(&[job(&recipe, 1, fused), job(&recipe, 1, day)]).iter().sum()
        });
        figure("fused and domed, cold", cold.collect());
        // The cold rounds have left seed 1 in the worker's memory.
        figures("domed, next seed", &|i| job(&recipe, 2 + i, day));
        figures("light", &|i| {
            job(&recipe, 1, View { light: [Light::Day, Light::Within][i as usize % 2], ..day })
        });
        figures("turn", &|i| job(&recipe, 1, View { turn: i as f32, ..day }));
        figures("tilt", &|i| job(&recipe, 1, View { tilt: 20.0 + i as f32, ..day }));
        figures("glass", &|i| {
            let mut recipe = recipe.clone();
            recipe.coats[1].powder[0].glass = ["rust", "moss", "slate", "umber"][i as usize % 4].into();
            job(&recipe, 1, day)
        });
    }
}

/// A depth dragged: the draft that the page asks for on a common screen, sixty times.
#[test]
fn figures_of_a_drag() {
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    let view = View::usual(Stage::Domed, Light::Day, 768).quick();
    let jobs: Vec<_> = (0..=60)
        .map(|i| {
            let mut recipe = workload();
            let Fall::Patches(patches) = &mut recipe.coats[1].fall else { unreachable!("its second coat") };
            patches.depth.0 = 0.3 + 0.01 * f64::from(i);
            Job { id: 1, recipe, seed: Seed(1), wanted: vec![Wanted::Picture(view)] }
        })
        .collect();
    println!("from a job to its picture, {} cells, {} px, ms: median least p95", view.cells, view.size);
    figure("a depth dragged", worker.times(&jobs)[1..].to_vec());
}

/// An order of 200 pieces in four colorways, one layout each: until its days stand, and with all tickets known, as after every change.
#[test]
fn figures_of_an_order() {
    const ROUNDS: u32 = 15;
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    let lines = [100.0, 110.0, 120.0, 130.0].map(|diameter| {
        let mut recipe = demo::ember_walk();
        recipe.blank.diameter.0 = diameter;
        let line = Order::of(recipe, 50).lines.remove(0);
        Line { seeds: vec![Seed(41); 50], ..line }
    });
    let order = Order { lines: lines.into(), spare_per_ten: 0, ..Order::of(demo::ember_walk(), 1) };
    let job = |id: u32| {
        // Another weight in a jar: no ticket hangs on it.
        let mut order = order.clone();
        order.stock.jars.push(Jar { glass: "rust".into(), grams: Some(Grams(f64::from(id))), price: None });
        let asked = OrderJob { order, others: Vec::new(), today: date(2026, 11, 30) };
        let wanted = vec![Wanted::Desk(written(&DeskJob::Order(Box::new(asked))))];
        Job { id, recipe: Recipe::bare(), seed: Seed(0), wanted }
    };
    let times = worker.times(&(0..=ROUNDS).map(job).collect::<Vec<_>>());
    println!("200 pieces in four colorways, from a job to what it comes to, ms: median least p95");
    figure("the first time, to its days", times[..1].to_vec());
    figure("tickets known, all of it", times[1..].to_vec());
}

/// Twenty jars for a color: each alone and all pairs of them, two of them or all of them opals.
#[test]
fn figures_of_a_color_found() {
    let browser = Browser::start();
    let worker = Worker::hired(&browser);
    println!("from a job to the ways among 20 jars, ms: median least p95");
    for opals in [2, 20] {
        // One more is done first, which fetches the desk, and not counted.
        let jobs: Vec<_> = (0..=15).map(|i| job_for_a_color(opals, i)).collect();
        figure(&format!("{opals} opals"), worker.times(&jobs)[1..].to_vec());
    }
}

/// A job for another color each time.
fn job_for_a_color(opals: usize, i: u8) -> Job {
    let recipe = demo::ember_walk();
    let asked = DeskJob::Find(Box::new(FindJob {
        coat: recipe.coats[1].id,
        recipe,
        seed: Seed(41),
        jars: Glasses((0..20).map(|jar| jar_of_many(jar, jar < opals)).collect()),
        wanted: typed::Typed::Srgb([154 - 5 * i, 95, 76 + 5 * i]).lab(),
        seen: SeenOn::Coat,
        two: true,
    }));
    Job { id: 1, recipe: Recipe::bare(), seed: Seed(0), wanted: vec![Wanted::Desk(written(&asked))] }
}

/// A jar like those of the native bench: a transparent glass of the catalogue, stronger with its number, with chalk in it if it is an opal.
fn jar_of_many(jar: usize, opal: bool) -> Glass {
    let chalk = &catalogue::find("chalk").expect("it is in the catalogue").material;
    let clear: Vec<&Glass> = catalogue::all().iter().filter(|glass| !glass.material.scatters()).collect();
    let glass = clear[1 + jar % (clear.len() - 1)];
    let parts = [(&glass.material, 1.0 + 0.2 * jar as f32), (chalk, if opal { 0.5 } else { 0.0 })];
    Glass { id: format!("jar_{jar}"), material: Material::blend(parts), ..glass.clone() }
}

/// From a typed color to the ladder of the glass that it makes, on the page's own thread: tile 1, then tile 2 beside it, then tile 2 over
/// black.
#[test]
fn figures_of_a_tile() {
    const TYPED: &str = "const [label, colors] = arguments;
        const times = [];
        for (const color of colors) {
            const field = document.querySelector(`[aria-label='Color of tile ${label}']`);
            field.value = color;
            const start = performance.now();
            field.dispatchEvent(new Event('change', { bubbles: true }));
            const ladder = () => document.querySelector('.tile-ladder .ladder')?.getAttribute('style');
            const before = ladder();
            while (ladder() === before) await new Promise((done) => setTimeout(done));
            times.push(performance.now() - start);
        }
        return times;";
    let browser = opened();
    press(&browser, "Shelf");
    press(&browser, "Make a glass from a fired tile");
    browser.wait_for("return document.querySelectorAll('.tile-rows > li').length === 2");
    println!("from a typed color to its ladder, ms: median least p95");
    let typed = |tile: u32, codes: &dyn Fn(u8) -> [u8; 3]| -> Vec<f64> {
        let colors = (0..=15).map(|i| codes(i).map(|code| code.to_string()).join(" ")).collect::<Vec<_>>();
        let times = browser.run_async_with(TYPED, &json!([tile, colors]));
        times.as_array().expect("a list")[1..].iter().map(|time| time.as_f64().expect("a number")).collect()
    };
    figure("one tile over white", typed(1, &|i| [154 - 4 * i, 80, 10 + 3 * i]));
    figure("two tiles over white", typed(2, &|i| [200 - 2 * i, 140 + 2 * i, 80]));
    figure("two that disagree", typed(2, &|i| [60 + 2 * i, 50, 120]));
    let over = "document.querySelectorAll('.tile-rows > li')[1].querySelector(\"[aria-label='Over']\")";
    browser.run(&format!("{over}.lastElementChild.click()"));
    browser.wait_for(&format!("return {over}.lastElementChild.ariaPressed === 'true'"));
    figure("white and black", typed(2, &|i| [100 + i, 90, 80 - i]));
}

fn workload() -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.accents = Some(Accents { number: Number::Count(24), ..Accents::default() });
    recipe
}

fn figure(name: &str, mut times: Vec<f64>) {
    times.sort_by(f64::total_cmp);
    let at = |share: usize| times[(times.len() * share / 100).min(times.len() - 1)];
    println!("  {name}: {:.1} {:.1} {:.1}", at(50), at(0), at(95));
}

#[test]
fn figures_of_the_page() {
    let browser = Browser::start();
    browser.run_first(WATCH);
    browser.open(&page_url());
    let first = browser.wait_for("return window.__first || false");
    browser.run_async("await new Promise((done) => setTimeout(done, 2500))");
    println!("first picture {:.0} ms after navigation", first.as_f64().unwrap());
    println!("tasks over 50 ms on the page's own thread while it opened: {:?}", browser.long_tasks());
    browser.click("#recipe button");
    let slider = "[role=slider]";
    browser.wait_for(&format!("return document.querySelector('{slider}') !== null"));
    let before = browser.long_tasks().len();
    for _ in 0..40 {
        browser.keys(slider, "\u{e014}");
    }
    browser.run_async("await new Promise((done) => setTimeout(done, 2500))");
    println!("and while a rule was moved 40 times: {:?}", &browser.long_tasks()[before..]);
    let memory = browser.run("return performance.memory ? performance.memory.usedJSHeapSize : 0");
    assert!(memory != Value::Null);
}

#[test]
fn figures_of_the_tray() {
    let browser = Browser::start();
    browser.open(&page_url());
    browser.wait_for("return document.querySelector('.edge-disc:not(.coming)') !== null");
    let filled = |n: usize| {
        format!(
            "const start = performance.now();
            const press = (words) => [...document.querySelectorAll('button')].find((one) => one.textContent === words)?.click();
            press('Tray');
            while (true) {{
                const laid = document.querySelectorAll('.sister').length;
                const coming = document.querySelectorAll('.sister.coming').length;
                if (laid >= {n} && !coming) return performance.now() - start;
                press('12 more sisters');
                await new Promise((done) => setTimeout(done, 4));
            }}"
        )
    };
    for n in [12, 48] {
        // Another recipe each time, so that nothing is drawn yet.
        browser.run("[...document.querySelectorAll('button')].find((one) => one.textContent === 'Close the tray')?.click()");
        browser.run(
            "[...document.querySelectorAll('button')].find((one) => one.textContent === 'Roll').click()",
        );
        browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
        let before = browser.long_tasks().len();
        let ms = browser.run_async(&filled(n)).as_f64().unwrap();
        println!("a tray of {n} is laid in {ms:.0} ms; long tasks: {:?}", &browser.long_tasks()[before..]);
    }
}
