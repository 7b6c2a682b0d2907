//! What is laid by hand, from outside: powder goes where it is put, nothing else moves, and nothing is lost.

use dappledome::base::grid::Grid;
use dappledome::base::memo::Allowance;
use dappledome::base::scalar::Bounds;
use dappledome::base::seed::Seed;
use dappledome::base::units::{Degrees, Mm};
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::layup::accents::{accent_at, place};
use dappledome::layup::outlines::{LyingPatch, lying, patch_at};
use dappledome::layup::powder_bed::{Plane, PowderBed};
use dappledome::layup::rub::rub;
use dappledome::layup::sift::sift;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Coat, Fall, Patches, Recipe, Rub, WhichAccent, WhichPatch, demo};
use dappledome::shop::ticket::ticket;

const SEED: Seed = Seed(8);

fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("it is sound").plan
}

/// One coat of patches with nothing drifting past their edges.
fn clean() -> Recipe {
    let mut recipe = Recipe::bare();
    let patches = Patches { coverage: 0.2, size: Mm(14.0), stray_dust: 0.0, ..Patches::usual() };
    recipe.coats.push(Coat::new(1, "rust", Fall::Patches(patches)));
    recipe
}

fn volume(recipe: &Recipe, cells: usize) -> f64 {
    let plan = plan(recipe);
    let grid = Grid::new(plan.disc, cells);
    grid.integral(&sift(&plan.coats[0].sift, SEED, grid))
}

fn patches(recipe: &Recipe) -> Vec<LyingPatch> {
    lying(&plan(recipe).coats[0].sift, SEED)
}

/// A patch well within the rim.
fn free_one(patches: &[LyingPatch]) -> &LyingPatch {
    let reach = |patch: &LyingPatch| {
        patch.outlines.iter().flatten().map(|[x, y]| (x * x + y * y).sqrt()).fold(0.0, f32::at_least)
    };
    let free = patches.iter().filter(|patch| reach(patch) < 70.0);
    free.max_by(|a, b| a.share.total_cmp(&b.share)).expect("one lies within the rim")
}

/// A way on the disc by which a patch can be moved without touching another one or the rim.
fn free_way(all: &[LyingPatch], patch: &LyingPatch) -> [f64; 2] {
    let others: Vec<&LyingPatch> = all.iter().filter(|other| other.which != patch.which).collect();
    let points: Vec<[f32; 2]> = patch.outlines.iter().flatten().copied().collect();
    let clear = |way: [f32; 2]| {
        points.iter().all(|[x, y]| {
            let (x, y) = (x + way[0], y + way[1]);
            let near = |[a, b]: &[f32; 2]| (a - x) * (a - x) + (b - y) * (b - y) < 9.0;
            (x * x + y * y).sqrt() < 74.0
                && others.iter().all(|other| !other.outlines.iter().flatten().any(near))
                && others.iter().all(|other| patch_at(std::slice::from_ref(*other), x, y).is_none())
        })
    };
    let ways = (0..40 * 40).map(|k| [(k % 40 - 20) as f32 * 3.0, (k / 40 - 20) as f32 * 3.0]);
    let far = ways.filter(|way| way[0] * way[0] + way[1] * way[1] > 100.0);
    far.into_iter().find(|way| clear(*way)).map(|way| way.map(f64::from)).expect("there is room somewhere")
}

#[test]
fn a_moved_patch_takes_its_powder_along() {
    for turned in [0.0, 70.0] {
        let mut recipe = clean();
        recipe.coats[0].layout.turned = Degrees(turned);
        recipe.coats[0].layout.mirrored = turned > 0.0;
        let before = patches(&recipe);
        let patch = free_one(&before);
        let way = free_way(&before, patch);
        let whole = volume(&recipe, 384);
        assert!(recipe.coats[0].move_patch(patch.which, way));
        let off = volume(&recipe, 384) / whole - 1.0;
        println!("turned {turned}: moved by {way:?}, volume off by {off:.5}");
        assert!(off.abs() < 0.01, "{off}");

        let after = patches(&recipe);
        let moved = after.iter().find(|moved| moved.which == patch.which).expect("it lies there still");
        assert!(moved.by_hand && (moved.share / patch.share - 1.0).abs() < 0.01);
        for k in 0..2 {
            assert!((moved.middle[k] - patch.middle[k] - way[k] as f32).abs() < 0.1, "{:?}", moved.middle);
        }
        assert_eq!(patch_at(&after, patch.middle[0], patch.middle[1]), None, "clean glass is left behind");
        // The rest lies as it fell.
        let rest = |all: &[LyingPatch]| -> Vec<WhichPatch> {
            all.iter().map(|other| other.which).filter(|which| *which != patch.which).collect()
        };
        assert_eq!(rest(&before), rest(&after));
    }
}

#[test]
fn a_patch_taken_off_takes_its_share() {
    let mut recipe = clean();
    if let Fall::Patches(patches) = &mut recipe.coats[0].fall {
        (patches.thin_margin, patches.margin_left, patches.soft_edge) = (Mm(0.0), 1.0, Mm(0.0));
    }
    recipe.coats[0].unevenness = 0.0;
    let all = patches(&recipe);
    let patch = free_one(&all);
    let area = f64::from(plan(&recipe).disc.area());
    let before = volume(&recipe, 512);
    assert!(recipe.coats[0].take_off_patch(patch.which));
    let lost = (before - volume(&recipe, 512)) / 0.45 / area;
    println!("lost {lost:.4} of the disc for a share of {:.4}", patch.share);
    assert!((lost / f64::from(patch.share) - 1.0).abs() < 0.02, "{lost} for {}", patch.share);
    recipe.coats[0].back_to_how_it_fell();
    assert_eq!(volume(&recipe, 512), before);
}

#[test]
fn outlines_enclose_what_was_asked() {
    for (coverage, size) in [(0.05, 12.0), (0.24, 26.0), (0.34, 8.0), (0.34, 26.0), (0.7, 40.0)] {
        for seed in 0..6 {
            let mut recipe = clean();
            recipe.coats[0].fall = Fall::Patches(Patches { coverage, size: Mm(size), ..Patches::usual() });
            let sum: f32 = lying(&plan(&recipe).coats[0].sift, Seed(seed)).iter().map(|p| p.share).sum();
            assert!((f64::from(sum) - coverage).abs() < 0.012, "{coverage} of {size} mm, seed {seed}: {sum}");
        }
    }
}

#[test]
fn a_patch_is_found_where_its_powder_lies() {
    let mut recipe = clean();
    recipe.coats[0].layout = dappledome::recipe::Layout {
        mirrored: true,
        turned: Degrees(33.0),
        moved_right: Mm(14.0),
        ..Default::default()
    };
    let all = patches(&recipe);
    let patch = free_one(&all);
    assert!(recipe.coats[0].move_patch(patch.which, [9.0, -6.0]));
    assert!(recipe.coats[0].add_patch([-20.0, 30.0], Mm(22.0)));
    let plan = plan(&recipe);
    let all = lying(&plan.coats[0].sift, SEED);
    let grid = Grid::new(plan.disc, 256);
    let depth = sift(&plan.coats[0].sift, SEED, grid);
    let (mut wrong, mut covered) = (0, 0);
    grid.each(|cell, column, row| {
        let (x, y) = (grid.x(column), grid.y(row));
        // At an outline the soft edge and the thin margin leave about a fifth of the depth.
        let here = depth[cell] > 0.45 * 0.225;
        covered += usize::from(here);
        wrong += usize::from(here != patch_at(&all, x, y).is_some());
    });
    println!("{wrong} of {covered} cells differ");
    assert!(wrong * 20 < covered, "{wrong} of {covered} cells");
}

#[test]
fn turning_a_coat_turns_what_was_moved() {
    let mut recipe = clean();
    recipe.coats[0].bare_rim_raggedness = Mm(0.0);
    let all = patches(&recipe);
    assert!(recipe.coats[0].move_patch(free_one(&all).which, [12.0, 5.0]));
    assert!(recipe.coats[0].add_patch([31.0, 2.0], Mm(15.0)));
    let before = patches(&recipe);
    recipe.coats[0].layout.turned = Degrees(90.0);
    let after = patches(&recipe);
    for patch in before.iter().filter(|patch| patch.by_hand) {
        let turned = after.iter().find(|other| other.which == patch.which).expect("it lies there still");
        let [x, y] = patch.middle;
        let off = (turned.middle[0] + y).abs() + (turned.middle[1] - x).abs();
        assert!(off < 0.3 && (turned.share / patch.share - 1.0).abs() < 0.02, "{:?}: {off}", patch.which);
    }
}

#[test]
fn a_move_is_its_seeds_and_a_lock_keeps_the_fall_for_all() {
    let mut recipe = demo::ember_walk();
    let fall = |recipe: &Recipe, coat: usize, seed: Seed| {
        let plan = plan(recipe);
        sift(&plan.coats[coat].sift, seed, Grid::new(plan.disc, 96))
    };
    let patch = lying(&plan(&recipe).coats[1].sift, SEED)[0].which;
    let before = fall(&recipe, 1, SEED);
    let bare = recipe.clone();
    assert!(recipe.coats[1].move_patch(patch, [10.0, 10.0]));
    assert!(fall(&recipe, 1, SEED) != before, "it was moved");
    assert!(fall(&recipe, 2, SEED) == fall(&bare, 2, SEED), "the other coat lies as it did");
    assert!(recipe.without_hand_work() == bare, "the sisters fall as they did");
    recipe.coats[1].lock(SEED);
    assert!(fall(&recipe, 1, SEED) == fall(&recipe, 1, Seed(99)), "a locked coat keeps its fall");
    assert!(fall(&recipe, 2, SEED) != fall(&recipe, 2, Seed(99)), "the other one does not");
}

#[test]
fn draft_and_fine_agree_by_hand() {
    let recipe = by_hand();
    let plan = plan(&recipe);
    let mut preview = Preview::new();
    let mut left = |cells: usize| {
        let beds = preview.beds(&plan, SEED, cells, &mut Allowance::unlimited()).expect("no pause");
        (0..plan.coats.len()).map(|coat| beds.left.volume(coat)).collect::<Vec<f64>>()
    };
    for (coat, (draft, fine)) in left(192).into_iter().zip(left(512)).enumerate() {
        assert!((draft / fine - 1.0).abs() < 0.02, "coat {coat}: {draft} and {fine}");
    }
}

#[test]
fn every_place_is_the_same_at_every_size() {
    let plan = plan(&by_hand());
    let mut preview = Preview::new();
    let mut left = |cells: usize| {
        let sifted = |coat: usize| sift(&plan.coats[coat].sift, SEED, Grid::new(plan.disc, cells));
        let (one, other) = (sifted(1), sifted(2));
        let full = vec![vec![1.0; cells * cells]];
        let bed = PowderBed::sifted(Grid::new(plan.disc, cells), full);
        let beds = preview.beds(&plan, SEED, cells, &mut Allowance::unlimited()).expect("no pause");
        assert_eq!(beds.left.rubbed_off.len(), plan.coats.len());
        [one, other, rub(&bed, &plan.sponged_off).coats[0].to_vec()]
    };
    // The middle of every cell is the middle of the middle one of the nine that it is divided into.
    let (coarse, fine) = (left(160), left(480));
    for (what, (coarse, fine)) in coarse.iter().zip(&fine).enumerate() {
        // Powder that was dusted over the edge has no place there.
        let grid = Grid::new(plan.disc, 160);
        let within = plan.disc.radius() - grid.cell();
        let on_disc =
            |column, row| grid.x(column) * grid.x(column) + grid.y(row) * grid.y(row) < within * within;
        grid.each(|cell, column, row| {
            if !on_disc(column, row) {
                return;
            }
            let same = fine[(3 * row + 1) * 480 + 3 * column + 1];
            assert!((coarse[cell] - same).abs() < 2e-3, "{what} at {column}, {row}: {} {same}", coarse[cell]);
        });
    }
}

/// The recipe of the golden list with something of everything that is done by hand.
fn by_hand() -> Recipe {
    dappledome::recipe::file::read(include_str!("data/by_hand.json")).expect("a recipe")
}

#[test]
fn an_added_patch_is_as_wide_as_asked() {
    for raggedness in [0.0, 1.8, 4.0] {
        for (across, coverage) in [(4.0, 0.0), (20.0, 0.0), (20.0, 0.3), (60.0, 0.0)] {
            let mut recipe = clean();
            let fall = Patches { coverage, raggedness: Mm(raggedness), ..Patches::usual() };
            recipe.coats[0].fall = Fall::Patches(fall);
            assert!(recipe.coats[0].add_patch([10.0, -5.0], Mm(across)));
            let all = patches(&recipe);
            let added = all.iter().find(|patch| patch.which == WhichPatch::Added(0)).expect("it lies there");
            let area = f64::from(added.share * plan(&recipe).disc.area());
            let wide = (4.0 * area / std::f64::consts::PI).sqrt();
            println!("{across} mm at {raggedness}: {wide:.2} mm, {} outlines", added.outlines.len());
            assert!((wide / across - 1.0).abs() < 0.05, "{across} mm at {raggedness}: {wide}");
            assert!(volume(&recipe, 256) > 0.0);
        }
    }
}

#[test]
fn an_added_patch_keeps_its_outline_when_it_is_moved() {
    let mut recipe = clean();
    assert!(recipe.coats[0].add_patch([10.0, -5.0], Mm(20.0)));
    let share = |recipe: &Recipe| patches(recipe).last().expect("the added one").share;
    let before = share(&recipe);
    assert!(recipe.coats[0].move_patch(WhichPatch::Added(0), [20.37, 3.11]));
    assert!((share(&recipe) / before - 1.0).abs() < 0.01);
}

#[test]
fn a_place_without_a_patch_moves_nothing() {
    let mut recipe = clean();
    let before = volume(&recipe, 192);
    let all = patches(&recipe);
    let bare = (0..50).map(|x| x as f32).find(|x| patch_at(&all, *x, 0.0).is_none()).expect("clean glass");
    let which = WhichPatch::Fallen([f64::from(bare), 0.0]);
    assert!(recipe.coats[0].move_patch(which, [20.0, 0.0]));
    assert!((volume(&recipe, 192) / before - 1.0).abs() < 1e-4);
}

#[test]
fn rubbing_loses_no_powder() {
    for recipe in demo::all() {
        for sponged in [true, false] {
            let mut recipe = recipe.clone();
            if !sponged {
                recipe.sponge = None;
            }
            let plan = plan(&recipe);
            let mut preview = Preview::new();
            let bed = preview.beds(&plan, SEED, 192, &mut Allowance::unlimited()).expect("no pause").left;
            let rubs = [
                Rub { width: Mm(8.0), path: vec![[-50.0, 10.0], [0.0, 0.0], [60.0, 30.0]] },
                Rub { width: Mm(20.0), path: vec![[10.0, -40.0]] },
                Rub { width: Mm(5.0), path: Vec::new() },
                Rub { width: Mm(5.0), path: vec![[70.0, 70.0], [400.0, 400.0]] },
            ];
            let after = rub(&bed, &rubs);
            let area = f64::from(bed.grid.cell_area());
            let sum = |plane: &[f32]| plane.iter().map(|d| f64::from(*d)).sum::<f64>() * area;
            for coat in 0..bed.coats.len() {
                let back = |planes: &[Plane]| planes.get(coat).map_or(0.0, |plane| sum(plane));
                let before = sum(&bed.coats[coat]) + back(&bed.put_back);
                let there = sum(&after.coats[coat]) + back(&after.put_back);
                let off = (there + after.rubbed_off[coat]) / before - 1.0;
                assert!(off.abs() < 1e-5 && after.rubbed_off[coat] > 0.0, "coat {coat}: {off:e}");
            }
            for (x, y) in [(0.0, 0.0), (-25.0, 5.0), (10.0, -40.0), (16.0, -40.0)] {
                assert_eq!(after.depth(bed.grid.cell_at(x, y)), 0.0, "{x}, {y} is bare");
            }
            let far = bed.grid.cell_at(-40.0, -40.0);
            assert_eq!(after.depth(far), bed.depth(far));
        }
    }
}

#[test]
fn a_rub_is_as_wide_as_asked_and_is_on_the_ticket() {
    let mut recipe = Recipe::bare();
    let even = Coat::new(1, "straw", Fall::Even { depth: Mm(0.5) });
    recipe.coats.push(Coat { unevenness: 0.0, bare_rim: Mm(0.0), bare_rim_raggedness: Mm(0.0), ..even });
    assert!(recipe.rub_off(Mm(10.0), &[[-50.0, 0.0], [0.0, 0.0], [50.0, 0.0]]));
    let plan = plan(&recipe);
    let mut preview = Preview::new();
    let left = preview.beds(&plan, SEED, 512, &mut Allowance::unlimited()).expect("no pause").left;
    let area = left.rubbed_off[0] / 0.5;
    let want = 100.0 * 10.0 + std::f64::consts::PI * 25.0;
    assert!((area / want - 1.0).abs() < 0.03, "{area} for {want}");
    let ticket =
        ticket(&mut preview, &plan, SEED, &Kiln::guess(Guess::SmallBrick), &mut Allowance::unlimited())
            .expect("no pause");
    let grams = area * 0.5 * 0.45 * 2.5 / 1000.0;
    assert!((ticket.lifted.0 / grams - 1.0).abs() < 0.03, "{} for {grams}", ticket.lifted);
    assert_eq!(ticket.rolls, 0);
}

#[test]
fn a_rub_runs_again_only_what_it_must() {
    let mut recipe = demo::ember_walk();
    let view = View { cells: 96, ..View::usual(Stage::Fused, Light::Day, 96) };
    let mut preview = Preview::new();
    preview.picture(&plan(&recipe), SEED, &view);
    assert!(recipe.rub_off(Mm(8.0), &[[0.0, 0.0], [30.0, 0.0]]));
    let rubbed = plan(&recipe);
    let mut done = |steps: u32| preview.advance(&rubbed, SEED, &view, &mut Allowance::steps(steps)).is_ok();
    assert!(!done(4), "rubbing, fusing, coloring, what passes, relief");
    assert!(done(1));
}

#[test]
fn accents_go_where_they_are_put() {
    let mut recipe = demo::ember_walk();
    let mut accents = Accents::default();
    accents.glasses.push(dappledome::recipe::Part { glass: "slate".into(), parts: 1.0 });
    recipe.accents = Some(accents);
    let placed = |recipe: &Recipe, seed: Seed| place(plan(recipe).accents.as_ref().expect("some"), seed);
    let before = placed(&recipe, SEED);
    let accents = recipe.accents.as_mut().expect("some");
    assert!(accents.move_accent(before[3].which, [5.0, 6.0]));
    assert!(accents.take_off_accent(before[7].which));
    assert!(accents.add_accent([-20.0, 1.0], Mm(6.0), Some("slate".into())));
    assert!(accents.add_accent([-30.0, 1.0], Mm(6.0), Some("no such glass".into())));
    let after = placed(&recipe, SEED);
    assert_eq!(after.len(), before.len() + 1);
    assert_eq!((after[3].x, after[3].y, after[3].size, after[3].by_hand), (5.0, 6.0, before[3].size, true));
    assert!(after.iter().all(|accent| accent.which != before[7].which));
    assert_eq!(accent_at(&after, 6.0, 7.0, 0.0), Some(3));
    assert_eq!(accent_at(&after, 40.0, 0.0, 1.0), None);
    assert_eq!(after[..3], before[..3], "the others lie as they did");
    let added: Vec<usize> = after.iter().rev().take(2).map(|accent| accent.glass).collect();
    assert_eq!(added, [0, 1], "an unknown glass is the first");
    let ticket = ticket(
        &mut Preview::new(),
        &plan(&recipe),
        SEED,
        &Kiln::guess(Guess::SmallBrick),
        &mut Allowance::unlimited(),
    );
    let counted: u32 = ticket.expect("no pause").accents.iter().map(|accent| accent.count).sum();
    assert_eq!(counted as usize, after.len());

    let accents = recipe.accents.as_mut().expect("some");
    assert!(accents.move_accent(WhichAccent::Added(0), [79.0, 0.0]));
    let notices = Plan::new(&recipe).expect_err("it sticks out");
    assert!(notices.iter().any(|notice| notice.what == "An accent off the disc."), "{notices:?}");
}
