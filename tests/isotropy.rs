//! No field shows the axes of the lattice that it is tabulated on: its slope changes as fast along them as across their
//! corners, at any step and any depth.

use dappledome::base::grid::Grid;
use dappledome::base::lanes::{Four, Number};
use dappledome::base::seed::{Purpose, Seed};
use dappledome::base::units::Mm;
use dappledome::fuse::speckle::Speckle;
use dappledome::layup::field::{Lattice, fractal, plane_waves};
use dappledome::layup::sift::sift;
use dappledome::layup::sponge_face::{SIDE, SpongeFace};
use dappledome::picture::surface::ripples;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Coat, Fall, Recipe, ThickAndThin};

/// What is allowed between axes and diagonals.
const MOST: f64 = 0.05;

/// Structure function of the slope: the mean square of the second difference of a field at a step, along the axes and along
/// the diagonals, summed over places that lie on no lattice.
#[derive(Default)]
struct Sums {
    axes: f64,
    diagonals: f64,
}

impl Sums {
    fn add(&mut self, reach: f32, step: f32, field: impl Fn(f32, f32) -> f32) {
        let along = |x: f32, y: f32, (dx, dy): (f32, f32)| {
            let second = field(x + dx, y + dy) - 2.0 * field(x, y) + field(x - dx, y - dy);
            f64::from(second) * f64::from(second)
        };
        let slant = step * std::f32::consts::FRAC_1_SQRT_2;
        for (x, y) in places(reach) {
            self.axes += along(x, y, (step, 0.0)) + along(x, y, (0.0, step));
            self.diagonals += along(x, y, (slant, slant)) + along(x, y, (slant, -slant));
        }
    }

    fn off(&self) -> f64 {
        self.axes / self.diagonals - 1.0
    }
}

/// Holds the sums over seeds against what is allowed.
fn even(name: &str, seeds: u32, steps: &[f32], add: impl Fn(u32, f32, &mut Sums)) {
    let off = |step: &f32| {
        let mut sums = Sums::default();
        for seed in 0..seeds {
            add(seed, *step, &mut sums);
        }
        println!("{name}, {step} mm: axes against diagonals {:+.3}", sums.off());
        sums.off().abs()
    };
    assert!(steps.iter().map(off).fold(0.0, f64::max) <= MOST, "{name}");
}

#[test]
fn gradient_noise_has_no_axes() {
    // One octave as in an even coat, two as in the pane before patches, three as in the detail of a thick-and-thin coat.
    for octaves in 1..=3 {
        even(&format!("{octaves} octaves of 4.5 mm"), 24, &[0.3, 0.6, 1.2, 2.4], |seed, step, sums| {
            let mut rng = Seed(seed).stream(Purpose::Sponge);
            let field: Lattice = fractal(&mut rng, 4.5, octaves, 0.5, 60.0, 60.0);
            sums.add(55.0, step, |x, y| field.sample(x, y));
        });
    }
}

#[test]
fn plane_waves_have_no_axes() {
    even("plane waves", 120, &[1.0, 3.0, 6.0], |seed, step, sums| {
        let waves = plane_waves(&mut Seed(seed).stream(Purpose::Sponge), 5.0, 60.0, 0.5);
        sums.add(50.0, step, |x, y| waves.sample(x, y));
    });
}

/// Depths of a coat as a very large picture shows them.
fn depths(seed: u32, fall: Fall) -> (Grid, Vec<f32>) {
    let mut recipe = Recipe::bare();
    recipe.coats.push(Coat::new(1, "rust", fall));
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let grid = Grid::new(plan.disc, 1024);
    (grid, sift(&plan.coats[0].sift, Seed(seed), grid))
}

#[test]
fn a_deep_coat_has_no_axes() {
    let even = Fall::Even { depth: Mm(3.0) };
    let heaps = Fall::ThickAndThin(ThickAndThin { thickest: Mm(3.0), ..ThickAndThin::usual() });
    for (name, fall, seeds) in [("even", even, 12), ("thick and thin", heaps, 36)] {
        let coats: Vec<_> = (0..seeds).map(|seed| depths(seed, fall.clone())).collect();
        // Steps along an axis and along both, in cells, that are equally long to two parts in a thousand.
        let off = |(straight, slanting): (usize, usize)| {
            let mut sums = Sums::default();
            for (grid, depth) in &coats {
                add_cells(grid, depth, straight, slanting, &mut sums);
            }
            println!("{name} coat, {straight} cells: axes against diagonals {:+.3}", sums.off());
            sums.off().abs()
        };
        assert!([(17, 12), (41, 29)].into_iter().map(off).fold(0.0, f64::max) <= MOST, "{name}");
    }
}

/// The same sums over the middle of a grid of cells.
fn add_cells(grid: &Grid, depth: &[f32], straight: usize, slanting: usize, sums: &mut Sums) {
    let n = grid.n();
    for row in (n / 6..n - n / 6).step_by(3) {
        for column in (n / 6..n - n / 6).step_by(3) {
            let at = row * n + column;
            let second = |way: usize| {
                let second = f64::from(depth[at + way] - 2.0 * depth[at] + depth[at - way]);
                second * second
            };
            sums.axes += second(straight) + second(straight * n);
            sums.diagonals += second(slanting * (n + 1)) + second(slanting * (n - 1));
        }
    }
}

/// The points of the face are a quarter of a millimeter apart.
#[test]
fn the_walls_of_the_sponge_have_no_axes() {
    let face = SpongeFace::new(5.2);
    even("walls", 1, &[0.8, 1.6, 3.1], |_, step, sums| {
        sums.add(0.5 * SIDE, step, |x, y| face.at((Four::of(x), Four::of(y)))[0].to_array()[0]);
    });
}

#[test]
fn speckle_has_no_axes() {
    let fired = Speckle::fired(0.08, 0.31, 5);
    even("fired speckle", 1, &[0.31, 0.62, 1.24], |_, step, sums| {
        sums.add(80.0, step, |x, y| one(&fired, 0.2, x, y));
    });
    let loose = Speckle::loose(0.08, 0.31, 5);
    even("loose speckle", 1, &[0.62, 1.24], |_, step, sums| {
        sums.add(80.0, step, |x, y| one(&loose, 0.2, x, y));
    });
}

/// The skin is told as its slope: that changes as much along an axis as along a diagonal, both parts of it together.
#[test]
fn the_skins_ripples_have_no_axes() {
    let turned = |x: f32, y: f32, (dx, dy): (f32, f32)| {
        let (here, there) = (ripples().all(x, y), ripples().all(x + dx, y + dy));
        f64::from((there[0] - here[0]) * (there[0] - here[0]) + (there[1] - here[1]) * (there[1] - here[1]))
    };
    for step in [0.5, 1.0, 3.0, 6.0] {
        let slant = step * std::f32::consts::FRAC_1_SQRT_2;
        let mut sums = Sums::default();
        for (x, y) in places(120.0) {
            sums.axes += turned(x, y, (step, 0.0)) + turned(x, y, (0.0, step));
            sums.diagonals += turned(x, y, (slant, slant)) + turned(x, y, (slant, -slant));
        }
        println!("ripples, {step} mm: axes against diagonals {:+.3}", sums.off());
        assert!(sums.off().abs() <= MOST, "{step} mm: {:+.3}", sums.off());
    }
}

/// Places all over the square in a disc, on no lattice: Roberts' sequence (2018).
fn places(reach: f32) -> impl Iterator<Item = (f32, f32)> {
    let place = move |k: u32, step: f64| ((0.5 + f64::from(k) * step).fract() as f32 - 0.5) * 1.4 * reach;
    (0..30_000).map(move |k| (place(k, 0.754_877_666_246_693), place(k, 0.569_840_290_998_053)))
}

/// The depth at one place.
fn one(speckle: &Speckle, mean: f32, x: f32, y: f32) -> f32 {
    speckle.along(y)(Four::of(mean), Four::of(x)).to_array()[0]
}
