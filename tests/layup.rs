//! The layup against published statistics, and exact where it must be exact.

use dappledome::base::grid::Grid;
use dappledome::base::lanes::{Four, Number};
use dappledome::base::memo::Allowance;
use dappledome::base::scalar::PI;
use dappledome::base::seed::{Purpose, Seed};
use dappledome::base::units::Mm;
use dappledome::glass::catalogue::find;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::layup::accents::place;
use dappledome::layup::field::{Lattice, plane_waves};
use dappledome::layup::patches::{correlation_length, cut};
use dappledome::layup::sift::sift;
use dappledome::layup::sponge_face::SpongeFace;
use dappledome::preview::Preview;
use dappledome::recipe::plan::{Plan, PlannedAccents};
use dappledome::recipe::{AccentLayout, Coat, Fall, Patches, Recipe, demo};
use dappledome::shop::ticket::ticket;
use dappledome::slump::dome::{Dome, DomeInputs};
use dappledome::slump::trajectory::Trajectory;

fn plan_of(patches: Patches) -> Plan {
    let mut recipe = Recipe::bare();
    let coat = Coat::new(1, "rust", Fall::Patches(patches));
    recipe.coats.push(Coat { unevenness: 0.0, ..coat });
    Plan::new(&recipe).expect("usual patches are sound").plan
}

/// Patches with a hard edge and nothing beside it, so that where powder lies is where the patch is.
fn hard(coverage: f64, size: f64, raggedness: f64) -> Patches {
    Patches {
        coverage,
        size: Mm(size),
        raggedness: Mm(raggedness),
        soft_edge: Mm(0.0),
        stray_dust: 0.0,
        margin_left: 1.0,
        ..Patches::usual()
    }
}

/// Whether a cell lies in a patch: half the depth is where its edge, or that of the bare rim, is.
fn covered(depth: f32) -> bool {
    depth > 0.225
}

/// Counts of cells in patches and of entries into patches, along rows and columns.
#[derive(Default)]
struct Chords {
    covered: usize,
    entered: usize,
}

impl Chords {
    /// Adds the steps from cell to cell that lie wholly within the bare rim's ragged edge. Along endless lines the mean chord
    /// is the covered length over the entries (stereology; Stoyan, Kendall & Mecke, from memory); so counted, it is right within
    /// any window, and chords that the rim cuts short do not tell.
    fn add(&mut self, grid: &Grid, depth: &[f32], bare: f32) {
        let (n, limit) = (grid.n(), grid.disc().radius() - bare);
        let within = |column: usize, row: usize| {
            let (x, y) = (grid.x(column), grid.y(row));
            x * x + y * y < limit * limit
        };
        for row in 1..n {
            for column in (1..n).filter(|column| within(*column, row)) {
                let at = row * n + column;
                for (from, inside) in [(at - 1, within(column - 1, row)), (at - n, within(column, row - 1))] {
                    self.covered += usize::from(inside && covered(depth[at]));
                    self.entered += usize::from(inside && covered(depth[at]) && !covered(depth[from]));
                }
            }
        }
    }

    /// Mean chord, mm.
    fn mean(&self, grid: &Grid) -> f64 {
        self.covered as f64 / self.entered as f64 * f64::from(grid.cell())
    }
}

#[test]
fn coverage_is_as_asked_for_every_seed() {
    let mut worst = 0.0f64;
    for (coverage, seeds) in [(0.24, 0..12), (0.34, 12..24), (0.6, 24..30)] {
        let plan = plan_of(hard(coverage, 26.0, 1.8));
        for seed in seeds {
            for cells in [192, 512] {
                let grid = Grid::new(plan.disc, cells);
                let depth = sift(&plan.coats[0].sift, Seed(seed), grid);
                let covered: Vec<f32> = depth.iter().map(|d| f32::from(u8::from(covered(*d)))).collect();
                let share = grid.integral(&covered) / f64::from(plan.disc.area());
                // Half a cell where it is settled (128 cells across); another grid sees the outline at other points.
                worst = worst.max((share - coverage).abs());
                assert!(
                    (share - coverage).abs() < 0.003,
                    "seed {seed}, {cells} cells: {share} for {coverage}"
                );
            }
        }
    }
    println!("coverage is off by at most {worst:.4}");
}

#[test]
fn chords_of_cut_gaussian_fields_are_the_published_ones() {
    let text = include_str!("data/gaussian_patches.csv");
    for line in text.lines().filter(|line| line.starts_with("0.")) {
        let values: Vec<f64> = line.split(',').map(|v| v.parse().expect("a number")).collect();
        let (p, published) = (values[0], values[5]);
        if !(0.1..=0.6).contains(&p) {
            continue;
        }
        assert!((1.0 / correlation_length(1.0, p) - published).abs() < 2e-3, "formula at {p}");
        let (mut sum, fields) = (0.0, 12);
        for seed in 0..fields {
            sum += chord_of_field(seed, p);
        }
        let ratio = sum / f64::from(fields) / published;
        println!("coverage {p}: measured chord over published {ratio:.3}");
        // Twelve fields of 40 by 40 correlation lengths each.
        assert!((ratio - 1.0).abs() < 0.05, "coverage {p}: {ratio}");
    }
}

/// Mean chord of one field of correlation length 1 mm, cut at its quantile.
fn chord_of_field(seed: u32, p: f64) -> f64 {
    let mut rng = Seed(seed).stream(Purpose::Sponge);
    let waves: Lattice = plane_waves(&mut rng, 1.0, 21.0, 0.1);
    let n = 400;
    let at = |i: usize| (i as f32 - n as f32 / 2.0) * 0.1;
    let height = |i: usize, j: usize| waves.sample(at(i), at(j));
    let mut cells: Vec<(f32, f32)> = (0..n * n).map(|k| (height(k % n, k / n), 1.0)).collect();
    let level = cut(&mut cells, p * (n * n) as f64);
    let (mut covered, mut starts) = (0, 0);
    for j in 0..n {
        for i in 1..n {
            let here = height(i, j) > level;
            covered += i32::from(here);
            starts += i32::from(here && height(i - 1, j) <= level);
        }
    }
    f64::from(covered) / f64::from(starts) * 0.1
}

/// The mean over all patches of many pieces: the fewer patches a piece has, the more pieces.
#[test]
fn patches_are_as_wide_as_asked_at_every_coverage() {
    let mut off = Vec::new();
    for raggedness in [0.0, 1.8] {
        for (coverage, size, seeds) in [
            (0.05, 16.0, 240),
            (0.1, 22.0, 120),
            (0.24, 22.0, 80),
            (0.34, 26.0, 60),
            (0.5, 22.0, 40),
            (0.65, 22.0, 32),
            (0.8, 22.0, 24),
        ] {
            let plan = plan_of(hard(coverage, size, raggedness));
            let grid = Grid::new(plan.disc, 384);
            let mut chords = Chords::default();
            for seed in 0..seeds {
                chords.add(&grid, &sift(&plan.coats[0].sift, Seed(seed), grid), 3.5);
            }
            let ratio = chords.mean(&grid) / size;
            println!("{coverage} covered by {size} mm, raggedness {raggedness}: measured {ratio:.3} of it");
            off.push((ratio - 1.0).abs());
        }
    }
    assert!(off.iter().all(|off| *off < 0.03), "{off:.3?}");
}

#[test]
fn the_open_share_of_the_sponge_is_that_of_a_boolean_model() {
    // Stoyan, Kendall & Mecke, Stochastic Geometry and its Applications: randomly placed grains of mean area a and
    // density n leave exp(-n a) uncovered. Mean squared radius of a lognormal: r² exp(2 s²); stretching keeps area.
    let pores: [(f64, f64, f64); 3] = [(0.8, 2.6, 0.35), (7.0, 1.0, 0.35), (40.0, 0.42, 0.4)];
    let open: f64 = pores
        .iter()
        .map(|(per_cm2, r, s)| {
            per_cm2 / 100.0 * f64::from(PI) * r * r * dappledome::base::scalar::exp(2.0 * s * s)
        })
        .sum();
    let expected = dappledome::base::scalar::exp(-open);
    let face = SpongeFace::new(5.2);
    let n = 256;
    let wall = |x: f32, y: f32| face.at((Four::of(x), Four::of(y)))[0].to_array()[0];
    let solid = (0..n * n).filter(|k| wall((k % n) as f32 * 0.25, (k / n) as f32 * 0.25) > 1.0).count();
    let measured = solid as f64 / f64::from(n * n);
    println!("walls: {measured:.3} of the face, Boolean model {expected:.3}");
    // One face holds 33 of the widest pores, whose share so varies by a tenth; the fibers blur the edges of the rest.
    assert!((measured - expected).abs() < 0.05, "{measured} for {expected}");
}

#[test]
fn accents_keep_their_distance_their_band_and_their_number() {
    let plan = PlannedAccents {
        glasses: [("chalk", 0.25), ("slate", 0.75)]
            .map(|(id, share)| (find(id).expect("a glass of the catalogue").clone(), share))
            .into(),
        sizes: (3.0, 5.5),
        count: 26,
        ring: 70.0,
        band: 3.0,
        least_gap: 7.0,
        looseness: 1.0,
        layout: AccentLayout::default(),
    };
    let mut gaps = Vec::new();
    let mut slate = 0;
    for seed in 0..40 {
        let accents = place(&plan, Seed(seed));
        assert_eq!(accents.len(), 26);
        let angle = |i: usize| {
            let accent = accents[i % 26];
            let radius = (accent.x * accent.x + accent.y * accent.y).sqrt();
            assert!((radius - 70.0).abs() <= 1.5001 && (3.0..=5.5).contains(&accent.size));
            dappledome::base::scalar::atan2(accent.y.into(), accent.x.into())
        };
        slate += accents.iter().filter(|accent| accent.glass == 1).count();
        for i in 0..26 {
            let turn = (angle(i + 1) - angle(i)).rem_euclid(2.0 * std::f64::consts::PI);
            assert!(turn * 70.0 >= 7.0 - 1e-3, "seed {seed}: gap {}", turn * 70.0);
            gaps.push(turn * 70.0);
        }
    }
    // What is left over is shared out by Dirichlet(1, ..., 1): its gaps have the mean's own size as deviation.
    let free = 2.0 * std::f64::consts::PI * 70.0 / 26.0 - 7.0;
    let mean: f64 = gaps.iter().sum::<f64>() / gaps.len() as f64;
    let deviation = (gaps.iter().map(|g| (g - mean) * (g - mean)).sum::<f64>() / gaps.len() as f64).sqrt();
    assert!((mean - 7.0 - free).abs() < 0.01 && (deviation / free - 0.96).abs() < 0.12, "{mean} {deviation}");
    let share = slate as f64 / (40.0 * 26.0);
    assert!((share - 0.75).abs() < 0.05, "{share}");
}

#[test]
fn what_the_ticket_weighs_has_settled() {
    for recipe in demo::all() {
        let plan = Plan::new(&recipe).expect("the demo recipes are sound").plan;
        let (mut preview, mut unlimited) = (Preview::new(), Allowance::unlimited());
        let ticket = ticket(&mut preview, &plan, Seed(2), &Kiln::guess(Guess::SmallBrick), &mut unlimited)
            .expect("no pause");
        let finer = preview.beds(&plan, Seed(2), 768, &mut unlimited).expect("no pause").left;
        for (at, coat) in ticket.coats.iter().enumerate() {
            // Grams of glass in the bed: volume, packing and 2.5 g/cm³ (EN 572-1).
            let want = finer.volume(at) * recipe.packing * 0.0025;
            let off = coat.left.0 / want - 1.0;
            println!(
                "{} coat {at}: {:.3} g left, {:+.2} % of 768 cells",
                recipe.title,
                coat.left.0,
                off * 100.0
            );
            assert!(off.abs() < 0.002, "{} coat {at}: {off}", recipe.title);
        }
        // The sheets, and what is left as if it lay even.
        let left: f64 = ticket.coats.iter().map(|coat| coat.left.0).sum();
        let sheets: f64 = recipe.blank.sheets.iter().map(|sheet| sheet.thickness.0).sum();
        let radius = recipe.blank.diameter.0 / 2.0;
        let narrowed = 2.0 * radius / ticket.fused_across.0;
        let thick = (sheets + left / 0.0025 / (std::f64::consts::PI * radius * radius)) * narrowed * narrowed;
        assert!(
            (ticket.fused_thickness.0 - thick).abs() < 1e-4,
            "{}: {}",
            recipe.title,
            ticket.fused_thickness
        );
        // Its dome is that of its fused sheets, sunk until they are full in their mold.
        let inputs = DomeInputs {
            mold: recipe.mold.clone(),
            radius: (ticket.fused_across.0 / 2.0) as f32,
            thickness: (sheets * narrowed * narrowed) as f32,
        };
        let way = Trajectory::new(&inputs.sheet(0.0)).expect("it sinks");
        let dome = Dome::sunk(&way, way.full_at().expect("it fills its mold"));
        assert!((ticket.dome_high.0 - dome.high().0).abs() < 1e-3, "{}", recipe.title);
        assert!((ticket.dome_across.0 - dome.across().0).abs() < 1e-3, "{}", recipe.title);
    }
}
