//! Speed, per step and whole: `cargo bench`. The workload is Ember Walk with 24 accents, one thread.
//! Add a name to run some of them: `cargo bench -- whole`.

use dappledome::base::grid::Grid;
use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::fuse::relief::Relief;
use dappledome::fuse::settle::{Grain, settle};
use dappledome::layup::dab::dab;
use dappledome::layup::outlines::lying;
use dappledome::layup::powder_bed::PowderBed;
use dappledome::layup::rub::rub;
use dappledome::layup::sift::sift;
use dappledome::layup::sponge_face::SpongeFace;
use dappledome::optics::palette::{Palette, PaletteInputs};
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Fall, Number, Recipe, Side, demo};
use divan::Bencher;

fn main() {
    divan::main();
}

const SIZES: [u32; 2] = [View::DRAFT_CELLS, View::FINE_CELLS];

fn workload() -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.accents = Some(Accents { number: Number::Count(24), ..Accents::default() });
    recipe
}

fn plan() -> Plan {
    Plan::new(&workload()).expect("the workload is sound").plan
}

fn sifted(plan: &Plan, cells: u32, seed: u32) -> PowderBed {
    let grid = Grid::new(plan.disc, cells as usize);
    PowderBed::sifted(grid, plan.coats.iter().map(|coat| sift(&coat.sift, Seed(seed), grid)))
}

/// Everything from nothing: fused flat and domed, by day.
#[divan::bench(args = SIZES)]
fn whole_preview_cold(bencher: Bencher, size: u32) {
    let plan = plan();
    bencher.bench(|| both(&mut Preview::new(), &plan, 1, size));
}

/// The same for the next seed: the sponge's face, the palette, the dome and the view are remembered.
#[divan::bench(args = SIZES)]
fn whole_preview_next_seed(bencher: Bencher, size: u32) {
    let plan = plan();
    let mut preview = Preview::new();
    let mut seed = 0;
    bencher.bench_local(|| {
        seed += 1;
        both(&mut preview, &plan, seed, size)
    });
}

fn both(preview: &mut Preview, plan: &Plan, seed: u32, size: u32) -> u64 {
    let mut sum = 0;
    for stage in [Stage::Fused, Stage::Domed] {
        let picture = preview.picture(plan, Seed(seed), &View::usual(stage, Light::Day, size));
        sum += u64::from(picture.rgba[0]);
    }
    sum
}

/// After a change of one coat's glass: no powder moves.
#[divan::bench(args = SIZES)]
fn change_of_glass(bencher: Bencher, size: u32) {
    let mut recipe = workload();
    let mut preview = Preview::new();
    let mut turn = 0usize;
    bencher.bench_local(|| {
        turn += 1;
        // More glasses than the memory holds palettes, so that every change is a fresh one.
        recipe.coats[1].powder[0].glass = ["rust", "moss", "slate", "umber"][turn % 4].into();
        let plan = Plan::new(&recipe).expect("it is sound").plan;
        preview.picture(&plan, Seed(1), &View::usual(Stage::Domed, Light::Day, size))
    });
}

/// A coat's depth dragged: its fall stays.
#[divan::bench(args = SIZES)]
fn dragged_depth(bencher: Bencher, size: u32) {
    let mut recipe = workload();
    let mut preview = Preview::new();
    let mut turn = 0;
    bencher.bench_local(|| {
        turn += 1;
        if let Fall::Patches(patches) = &mut recipe.coats[1].fall {
            patches.depth = dappledome::base::units::Mm(0.40 + 0.001 * f64::from(turn % 64));
        }
        let plan = Plan::new(&recipe).expect("it is sound").plan;
        preview.picture(&plan, Seed(1), &View::usual(Stage::Domed, Light::Day, size))
    });
}

/// After a change of light, everything else remembered but the light's own colors.
#[divan::bench(args = SIZES)]
fn change_of_light(bencher: Bencher, size: u32) {
    let plan = plan();
    let mut preview = Preview::new();
    let mut turn = 0usize;
    bencher.bench_local(|| {
        turn += 1;
        let light = [Light::Within, Light::Day][turn % 2];
        preview.picture(&plan, Seed(1), &View::usual(Stage::Domed, light, size))
    });
}

/// A turn of the dome.
#[divan::bench(args = SIZES)]
fn turn_of_view(bencher: Bencher, size: u32) {
    view(bencher, size, |view, turn| view.turn = 3.0 * turn);
}

/// A tilt of the eye, for which every line of sight is new.
#[divan::bench(args = SIZES)]
fn tilt_of_view(bencher: Bencher, size: u32) {
    view(bencher, size, |view, turn| view.tilt = 20.0 + 0.1 * turn);
}

fn view(bencher: Bencher, size: u32, change: impl Fn(&mut View, f32)) {
    let plan = plan();
    let mut preview = Preview::new();
    let mut turn = 0.0;
    bencher.bench_local(|| {
        turn += 1.0;
        let mut view = View::usual(Stage::Domed, Light::Day, size);
        change(&mut view, turn);
        preview.picture(&plan, Seed(1), &view)
    });
}

#[divan::bench(args = SIZES)]
fn step_sift(bencher: Bencher, size: u32) {
    let plan = plan();
    bencher.bench(|| sifted(&plan, size, 1));
}

#[divan::bench]
fn step_sponge_face(bencher: Bencher) {
    bencher.bench(|| SpongeFace::new(5.2));
}

#[divan::bench(args = SIZES)]
fn step_dab(bencher: Bencher, size: u32) {
    let plan = plan();
    let face = SpongeFace::new(5.2);
    let sponge = plan.sponge.clone().expect("the workload has a sponge");
    bencher.with_inputs(|| sifted(&plan, size, 1)).bench_values(|bed| dab(bed, &sponge, &face, Seed(1)));
}

#[divan::bench(args = SIZES)]
fn step_fuse(bencher: Bencher, size: u32) {
    let plan = plan();
    let bed = Preview::new().beds(&plan, Seed(1), size as usize, &mut Allowance::unlimited());
    let bed = bed.expect("an unlimited allowance never pauses").left;
    let grains = Grain::of(&plan);
    bencher.bench_local(|| settle(&bed, &grains));
}

#[divan::bench(args = SIZES)]
fn step_relief(bencher: Bencher, size: u32) {
    let fused = Preview::new().fused(&plan(), Seed(1), size as usize, &mut Allowance::unlimited());
    let fused = fused.expect("an unlimited allowance never pauses");
    bencher.bench_local(|| Relief::new(&fused));
}

#[divan::bench]
fn step_bake(bencher: Bencher) {
    let inputs = PaletteInputs::of(&plan());
    bencher.bench_local(|| Palette::new(&inputs));
}

#[divan::bench(args = SIZES)]
fn step_color_by_day(bencher: Bencher, size: u32) {
    let plan = plan();
    let palette = Palette::new(&PaletteInputs::of(&plan));
    let fused = Preview::new().fused(&plan, Seed(1), size as usize, &mut Allowance::unlimited());
    let fused = fused.expect("an unlimited allowance never pauses");
    bencher.bench_local(|| palette.fired(&fused, Side::Out, 0.3));
}

#[divan::bench(args = SIZES)]
fn step_color_within(bencher: Bencher, size: u32) {
    let plan = plan();
    let palette = Palette::new(&PaletteInputs::of(&plan));
    let fused = Preview::new().fused(&plan, Seed(1), size as usize, &mut Allowance::unlimited());
    let fused = fused.expect("an unlimited allowance never pauses");
    bencher.bench_local(|| palette.through(&fused, Side::Out));
}

#[divan::bench(args = SIZES)]
fn step_color_loose(bencher: Bencher, size: u32) {
    let plan = plan();
    let palette = Palette::new(&PaletteInputs::of(&plan));
    let bed = Preview::new().beds(&plan, Seed(1), size as usize, &mut Allowance::unlimited());
    let bed = bed.expect("an unlimited allowance never pauses").left;
    bencher.bench_local(|| palette.loose(&bed, 0.3));
}

/// The outlines of a coat's patches, for the page to draw.
#[divan::bench]
fn outlines(bencher: Bencher) {
    let plan = plan();
    bencher.bench(|| lying(&plan.coats[1].sift, Seed(1)));
}

/// One coat with eight of its patches moved by hand.
#[divan::bench(args = SIZES)]
fn sift_by_hand(bencher: Bencher, cells: u32) {
    let mut recipe = workload();
    for patch in lying(&plan().coats[1].sift, Seed(1)).iter().take(8) {
        recipe.coats[1].move_patch(patch.which, [6.0, -4.0]);
    }
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let grid = Grid::new(plan.disc, cells as usize);
    bencher.bench(|| sift(&plan.coats[1].sift, Seed(1), grid));
}

/// Twenty rubs across the disc.
#[divan::bench(args = SIZES)]
fn rub_off(bencher: Bencher, cells: u32) {
    let mut recipe = workload();
    for k in 0..20 {
        let y = f64::from(k) * 6.0 - 57.0;
        let path: Vec<[f64; 2]> =
            (0..60).map(|i| [f64::from(i) * 2.0 - 60.0, y + f64::from(i % 3)]).collect();
        recipe.rub_off(dappledome::base::units::Mm(4.0), &path);
    }
    let bed = sifted(&plan(), cells, 1);
    bencher.bench(|| rub(&bed, &recipe.sponged_off));
}

/// Cost against cells: the time per cell should stay level.
#[divan::bench(args = [128, 256, 512, 1024], sample_count = 20)]
fn slope_cells(bencher: Bencher, cells: u32) {
    let plan = plan();
    let mut preview = Preview::new();
    let mut seed = 0;
    bencher.counter(divan::counter::ItemsCount::new(cells * cells)).bench_local(|| {
        seed += 1;
        both(&mut preview, &plan, seed, cells)
    });
}

/// Cost against coats.
#[divan::bench(args = [1, 2, 4, 8], sample_count = 20)]
fn slope_coats(bencher: Bencher, coats: u32) {
    let mut recipe = workload();
    let model = recipe.coats[1].clone();
    recipe.coats = (0..coats).map(|id| dappledome::recipe::Coat { id, ..model.clone() }).collect();
    if let Fall::Patches(patches) = &mut recipe.coats[0].fall {
        patches.coverage = 0.5;
    }
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let mut preview = Preview::new();
    let mut seed = 0;
    bencher.counter(divan::counter::ItemsCount::new(coats)).bench_local(|| {
        seed += 1;
        both(&mut preview, &plan, seed, View::FINE_CELLS)
    });
}

/// Cost against passes of the sponge.
#[divan::bench(args = [1, 2, 4], sample_count = 20)]
fn slope_rolls(bencher: Bencher, passes: u32) {
    let plan = plan();
    let face = SpongeFace::new(5.2);
    let mut sponge = plan.sponge.clone().expect("the workload has a sponge");
    sponge.passes = passes.into();
    bencher
        .counter(divan::counter::ItemsCount::new(passes))
        .with_inputs(|| sifted(&plan, View::FINE_CELLS, 1))
        .bench_values(|bed| dab(bed, &sponge, &face, Seed(1)));
}
