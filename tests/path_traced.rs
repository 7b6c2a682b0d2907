//! The domed pictures against path-traced glass (`examples/path_traced`, whose pictures lie in `tests/data/path_traced`), and
//! the path tracer itself against answers that are known.

#[path = "../examples/path_traced/checks.rs"]
mod checks;
#[path = "path_traced/compare.rs"]
mod compare;
#[path = "../examples/path_traced/glass.rs"]
mod glass;
#[path = "../examples/path_traced/lights.rs"]
mod lights;
#[path = "path_traced/regions.rs"]
mod regions;
#[path = "../examples/path_traced/scenes.rs"]
mod scenes;
#[path = "../examples/path_traced/space.rs"]
mod space;
#[path = "../examples/path_traced/tracer.rs"]
mod tracer;
#[path = "../examples/path_traced/view.rs"]
mod view;

use checks::{furnace, seen_straight, slab};
use compare::{Held, compared, goals, of, reference};
use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::color::difference::{de2000, to_lab};
use dappledome::color::spectrum::BANDS;
use dappledome::color::srgb::luminance;
use dappledome::optics::palette::{Palette, PaletteInputs};
use dappledome::picture::lantern::{Cap, Lantern as Lamp};
use dappledome::picture::shell::{Ray, Shell};
use dappledome::picture::studio::Studio as Lights;
use dappledome::picture::vec3::Vec3;
use dappledome::preview::Preview;
use dappledome::slump::dome::{Dome, DomeInputs};
use glass::{Kind, Layer, Stack, to_linear};
use lights::{Lantern, Studio};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use scenes::{SCENES, SIZE, Scene};
use space::{Solid, V3};
use std::f64::consts::TAU;
use std::fs;
use view::{camera, on_wall, pixel, world};

#[test]
fn even_light_on_glass_that_absorbs_nothing_shows_itself() {
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    let camera = camera(&SCENES[0]);
    for scattering in [0.0, 4.0] {
        let world = furnace(Solid::Dome(SCENES[0].dome()), scattering);
        // Crown, flanks and the rim in front: a path that is lost anywhere is missing here.
        for at in [(48, 30), (48, 48), (20, 50), (48, 77), (12, 54)] {
            let seen = pixel(&world, &camera, at, 400, &mut chance);
            assert!(seen.iter().all(|c| (c - 1.0).abs() < 2e-3), "{scattering} {at:?}: {seen:?}");
        }
    }
}

/// A clear slab mirrors 2 r/(1 + r) and lets through (1 - r)/(1 + r), r being Fresnel's reflectance of one face (Stokes's
/// pile of plates); with absorption t along the way, (1 - r)² t/(1 - r² t²).
#[test]
fn a_clear_slab_lets_through_what_stokes_says() {
    let mut chance = ChaCha8Rng::seed_from_u64(2);
    let r = (0.52f64 / 2.52) * (0.52 / 2.52);
    for absorbed in [0.0f64, 0.4] {
        let t = dappledome::base::scalar::exp(-absorbed);
        let stack = single(absorbed / 6.0, 0.0);
        let through = seen_straight(&slab(stack, false), 64_000, &mut chance)[7];
        let want = (1.0 - r) * (1.0 - r) * t / (1.0 - r * r * t * t);
        assert!((through - want).abs() < 1.5e-3, "{absorbed}: {through} for {want}");
    }
}

fn single(absorption: f64, scattering: f64) -> Stack {
    let layers: Vec<Layer> = vec![(6.0, 0)];
    let kinds = vec![Kind::new([absorption; BANDS], [scattering; BANDS])];
    Stack { kinds, coated: layers.clone(), bare: layers, coated_to: 0.0 }
}

/// A row of `haze_stacks.csv` (its head says what the columns are): its number, its layers, its look on black and what it passes.
struct Row {
    name: String,
    stack: Stack,
    look: f64,
    pass: f64,
}

fn rows(kind: &str) -> Vec<Row> {
    let text = fs::read_to_string("tests/data/haze_stacks.csv").expect("the table is there");
    let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    rows.map(|line| line.split(',').collect::<Vec<_>>())
        .filter(|cells| cells[1] == kind)
        .map(|cells| row(&cells))
        .collect()
}

fn row(cells: &[&str]) -> Row {
    let number = |i: usize| cells[i].parse::<f64>().expect("a number");
    let mut stack = single(0.0, 0.0);
    stack.kinds.clear();
    let mut layers: Vec<Layer> = Vec::new();
    for i in 0..cells[2].parse().expect("a number of layers") {
        let [a, s, x] = [0, 1, 2].map(|k| number(4 + 3 * i + k));
        stack.kinds.push(Kind::new([a; BANDS], [s / 0.6; BANDS]));
        layers.push((layers.last().map_or(0.0, |layer| layer.0) + x, i));
    }
    (stack.coated, stack.bare) = (layers.clone(), layers);
    Row { name: cells[0].into(), stack, look: number(22), pass: number(25) }
}

/// Another Monte Carlo of our own, which shares no code with the tracer.
#[test]
fn flat_slabs_are_as_another_monte_carlo_has_them() {
    let mut chance = ChaCha8Rng::seed_from_u64(3);
    let rows = rows("clear");
    for Row { name, stack, look, pass } in rows.iter().step_by(12).take(12) {
        let looks = seen_straight(&slab(stack.clone(), true), 40_000, &mut chance)[7];
        let passes = seen_straight(&slab(stack.clone(), false), 40_000, &mut chance)[7];
        println!("{name}: look {looks:.4} for {look:.4}, pass {passes:.4} for {pass:.4}");
        // Three standard errors of a share of 40 000 lines of sight, and the table's own noise.
        assert!((looks - look).abs() < 0.008, "row {name}: {looks} for {look}");
        assert!((passes - pass).abs() < 0.010, "row {name}: {passes} for {pass}");
    }
}

/// Faint paths end by chance, and those that go on make up for them: of what thick opal slabs pass, most comes from such paths.
#[test]
fn faint_paths_are_made_up_for() {
    let mut chance = ChaCha8Rng::seed_from_u64(7);
    let faint: Vec<Row> =
        rows("opal").into_iter().filter(|row| (0.002..0.02).contains(&row.pass)).take(8).collect();
    assert_eq!(faint.len(), 8);
    let ratio = |row: &Row| {
        let passes = seen_straight(&slab(row.stack.clone(), false), 80_000, &mut chance)[7];
        println!("{}: pass {passes:.4} for {:.4}", row.name, row.pass);
        passes / row.pass
    };
    let mean = faint.iter().map(ratio).sum::<f64>() / 8.0;
    assert!((mean - 1.0).abs() < 0.03, "{mean}");
}

/// The reference has its own copy of what stands around the piece: where the renderer's is changed, the pictures must be traced
/// again.
#[test]
fn both_stand_in_the_same_studio() {
    let (traced, renderer) = (Studio::new(), Lights::get());
    let mut chance = ChaCha8Rng::seed_from_u64(4);
    for _ in 0..4000 {
        let d = traced.draw(&mut chance);
        let (want, got) = (traced.seen(d), renderer.mirrored(Vec3::new(d.x as f32, d.y as f32, d.z as f32)));
        // The renderer's exposure hangs on its closed form for a white glass, which is 1.3 % off.
        assert!((want - f64::from(got)).abs() < 0.005 + 0.016 * want, "{d:?}: {got} for {want}");
    }
    let scene = &SCENES[0];
    let shell = Shell::new(&Dome::new(&DomeInputs::of(&scene.plan())));
    let (traced, renderer) = (Lantern::new(&scene.dome()), Lamp::new(&shell));
    let mut met = 0;
    for _ in 0..2000 {
        let from = V3::new(0.0, 0.0, 1.0).tilted(chance.random(), TAU * chance.random::<f64>()) * 300.0;
        let toward = (V3::new(60.0 * chance.random::<f64>() - 30.0, 0.0, 0.0) - from).unit();
        let v = |v: V3| Vec3::new(v.x as f32, v.y as f32, v.z as f32);
        let seen = renderer.seen(&Ray { from: v(from), toward: v(toward) });
        if let (Some((_, _, want)), Some(Cap { bright: got, cover, .. })) = (traced.met(from, toward), seen) {
            assert!(cover < 1.0 || (want - f64::from(got)).abs() < 0.01, "{from:?}: {got} for {want}");
            met += 1;
        }
    }
    assert!(met > 1000, "{met}");
}

/// The stored pictures are what the tracer gives today: a few pixels traced again, the difference within its own noise.
#[test]
fn the_stored_pictures_are_the_tracers() {
    for (i, scene) in SCENES.iter().enumerate() {
        let camera = camera(scene);
        for name in ["day", "lamp"] {
            let world = world(scene, name == "day");
            let stored = reference(scene, name);
            let mut chance = ChaCha8Rng::seed_from_u64(100 + i as u64);
            let (left, top) = [(46, 32), (58, 44)][i % 2];
            let off: Vec<f32> = (0..36)
                .map(|i| {
                    let (x, y) = (left + i % 6, top + i / 6);
                    let now = pixel(&world, &camera, (x, y), 128, &mut chance).map(|c| c as f32);
                    luminance(now) - luminance(stored[(y * SIZE + x) as usize])
                })
                .collect();
            let mean = off.iter().sum::<f32>() / 36.0;
            let spread = off.iter().map(|d| (d - mean) * (d - mean)).sum::<f32>() / 35.0;
            let error = (spread / 36.0).sqrt();
            let light = (0..36)
                .map(|i| luminance(stored[((top + i / 6) * SIZE + left + i % 6) as usize]))
                .sum::<f32>()
                / 36.0;
            println!("{} {name}: {mean:.4} of {light:.4}, standard error {error:.4}", scene.name);
            assert!(error < 0.08 * light, "too noisy to tell");
            assert!(mean.abs() < 3.5 * error + 0.004 * light, "{} {name}: {mean} off {light}", scene.name);
        }
    }
}

/// Light on the inside of the glass, the lantern's radiance being 1: the renderer's table of direct light and what it says is
/// thrown about, against the tracer's (whose lantern throws light back, too).
#[test]
fn the_inside_is_lit_as_traced() {
    let mut chance = ChaCha8Rng::seed_from_u64(6);
    for (scene, most) in [(&SCENES[0], HELD_THROWN.0), (&SCENES[1], HELD_THROWN.1)] {
        let plan = scene.plan();
        let lamp = Lamp::new(&Shell::new(&Dome::new(&DomeInputs::of(&plan))));
        let palette = Palette::new(&PaletteInputs::of(&plan));
        let fused =
            Preview::new().fused(&plan, Seed(1), 192, &mut Allowance::unlimited()).expect("it never pauses");
        let inside = palette.passed(&fused, plan.side).inside;
        let gain = luminance(Lamp::gain(inside));
        let world = world(scene, false);
        println!("{}: s mm; direct, all: renderer, traced", scene.name);
        for eighth in 0..8 {
            let s = 10.0 * f64::from(eighth);
            let (direct, all) = on_wall(&world, &scene.dome(), s, 6400, &mut chance);
            let renderer = lamp.on_wall(s as f32);
            println!("{s:5.1}  {renderer:.3} {direct:.3}  {:.3} {:.3}", renderer * gain, luminance(all));
            assert!((f64::from(renderer) - direct).abs() < 0.035, "{s}: {renderer} for {direct}");
            let apart = renderer * gain / luminance(all) - 1.0;
            assert!(apart.abs() < most, "{} at {s}: {apart}", scene.name);
        }
    }
}

/// How far the renderer's light on the inside may be off, as a share, under white and under clear glass: as measured.
const HELD_THROWN: (f32, f32) = (0.10, 0.08);

/// *Gray* shows the flat stack: the engine's folded layers against the same stack traced as an endless flat slab.
#[test]
fn flat_stacks_are_as_traced() {
    let mut chance = ChaCha8Rng::seed_from_u64(5);
    for scene in &SCENES {
        let plan = scene.plan();
        let palette = Palette::new(&PaletteInputs::of(&plan));
        let mut preview = Preview::new();
        let fused = preview.fused(&plan, Seed(1), 192, &mut Allowance::unlimited()).expect("it never pauses");
        let field = palette.fired(&fused, plan.side, 0.0);
        let through = palette.through(&fused, plan.side);
        let mut traced = |from_above| {
            let seen = seen_straight(&slab(scene.stack(), from_above), 180_000, &mut chance);
            to_linear(&seen).map(|c| c as f32)
        };
        let looks = ("look", middle(&field), traced(true), 0.8);
        let passes = ("pass", middle(&through), traced(false), 1.5);
        for (name, got, want, most) in [looks, passes] {
            let apart = de2000(to_lab(got), to_lab(want));
            println!("{:14} {name}: {apart:.2}  {got:.4?} for {want:.4?}", scene.name);
            assert!(apart < most, "{} {name}: {got:?} for {want:?}", scene.name);
        }
    }
}

/// Mean color of a field in the middle of the disc, over its grain.
fn middle(field: &dappledome::optics::colors::ColorField) -> [f32; 3] {
    let mut sum = [0.0; 3];
    for (i, j) in (-30..30).flat_map(|j| (-30..30).map(move |i| (i as f32, j as f32))) {
        let color = field.sample(i, j);
        for k in 0..3 {
            sum[k] += color[k] / 3600.0;
        }
    }
    sum
}

/// Every region of every scene is held to what `goals.csv` says: never more than now, and the goal of 2 on crown and flank and
/// of 4 at the rim once it is reached.
#[test]
fn the_pictures_are_as_traced() {
    let held = goals();
    let mut missed = Vec::new();
    println!(
        "{:14} {:6} {:8} {:>6} {:>6} {:>6} {:>6}",
        "scene", "light", "region", "blocks", "dE00", "dL", "held"
    );
    for Held { scene, light, region, most } in &held {
        let scene: &Scene = SCENES.iter().find(|s| s.name == scene).expect("a scene of the list");
        let Some(result) = of(&compared(scene, light), region) else {
            missed.push(format!("{} {light} {region}: nothing to compare", scene.name));
            continue;
        };
        println!(
            "{:14} {light:6} {region:8} {:6} {:6.2} {:10.1} {:6.2} {most:6.1}",
            scene.name, result.blocks, result.apart, result.light, result.lighter
        );
        if result.apart > *most {
            missed.push(format!("{} {light} {region}: {:.2}, not {most}", scene.name, result.apart));
        }
    }
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}
