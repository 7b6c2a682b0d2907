//! The weights of the sixteen bands that come nearest to a light's own sums: least squares of CIEDE2000 over stacks, white exact.

use super::eye::{Light, lab};
use super::stacks::Stack;
use dappledome::color::difference::de2000;
use dappledome::color::spectrum::{BANDS, WAVELENGTHS};

/// The weights of the bands in linear red, green and blue.
pub type Weights = [[f64; BANDS]; 3];

/// A weight for each band and channel but the last band, whose weights make white white.
const FREE: usize = BANDS - 1;
const UNKNOWNS: usize = 3 * FREE;
/// Rounds in which what was far off counts for more: they pull the worst in (own choice).
const ROUNDS: usize = 40;

/// A stack as the fit needs it.
struct Shown {
    /// In the bands.
    bands: Vec<f64>,
    /// Summed every 5 nm, linear sRGB.
    color: [f64; 3],
    /// CIEDE2000 squared of a small step away from it, as a quadratic form.
    metric: [[f64; 3]; 3],
}

/// The fitted weights.
pub fn fit(light: &Light, stacks: &[Stack]) -> Weights {
    let shown: Vec<Shown> = stacks.iter().map(|stack| shown(light, stack)).collect();
    let mut counts = vec![1.0; shown.len()];
    let mut weights = solved(&shown, &counts);
    for _ in 0..ROUNDS {
        let errors: Vec<f64> = shown.iter().map(|stack| stack.error(&weights)).collect();
        let mean = errors.iter().sum::<f64>() / errors.len() as f64;
        for (count, error) in counts.iter_mut().zip(&errors) {
            *count = (*count * (0.5 + 0.5 * error / mean)).clamp(0.05, 1e4);
        }
        weights = solved(&shown, &counts);
    }
    weights
}

fn in_bands(bands: &[f64], weights: &Weights) -> [f64; 3] {
    weights.map(|row| row.iter().zip(bands).map(|(weight, value)| weight * value).sum())
}

fn shown(light: &Light, stack: &Stack) -> Shown {
    let color = light.seen(light.summed(&stack.shows(&light.nms)), 1.0);
    let step = 2e-3 * (color[1].abs() + 0.02);
    let squared = |way: [f64; 3]| {
        let there = [0, 1, 2].map(|k| color[k] + step * way[k]);
        let apart = de2000(lab(color), lab(there)) / step;
        apart * apart
    };
    let along = |k: usize| std::array::from_fn(|i| f64::from(u8::from(i == k)));
    let both = |i: usize, j: usize| {
        let way: [f64; 3] = std::array::from_fn(|k| along(i)[k] + along(j)[k]);
        (squared(way) - squared(along(i)) - squared(along(j))) / 2.0
    };
    let entry = |i: usize, j: usize| if i == j { squared(along(i)) } else { both(i, j) };
    let bands = stack.shows(&WAVELENGTHS.map(f64::from));
    Shown { bands, color, metric: std::array::from_fn(|i| [0, 1, 2].map(|j| entry(i, j))) }
}

impl Shown {
    fn error(&self, weights: &Weights) -> f64 {
        de2000(lab(in_bands(&self.bands, weights)), lab(self.color))
    }
}

/// The normal equations of all stacks, each counted so often, solved.
fn solved(shown: &[Shown], counts: &[f64]) -> Weights {
    let (mut matrix, mut right) = (vec![vec![0.0; UNKNOWNS]; UNKNOWNS], vec![0.0; UNKNOWNS]);
    for (stack, count) in shown.iter().zip(counts) {
        // White is exact, so what counts is how far a band differs from the last one.
        let last = stack.bands[FREE];
        let off: Vec<f64> = stack.bands[..FREE].iter().map(|value| value - last).collect();
        for i in 0..3 {
            for j in 0..3 {
                let form = count * stack.metric[i][j];
                for a in 0..FREE {
                    right[FREE * i + a] += form * off[a] * (stack.color[j] - last);
                    for b in 0..FREE {
                        matrix[FREE * i + a][FREE * j + b] += form * off[a] * off[b];
                    }
                }
            }
        }
    }
    let free = cholesky(matrix, right);
    std::array::from_fn(|channel| {
        let row = &free[FREE * channel..FREE * (channel + 1)];
        std::array::from_fn(|band| if band < FREE { row[band] } else { 1.0 - row.iter().sum::<f64>() })
    })
}

/// Solves a symmetric positive definite system (Cholesky).
fn cholesky(mut a: Vec<Vec<f64>>, mut x: Vec<f64>) -> Vec<f64> {
    let n = x.len();
    for j in 0..n {
        for k in 0..j {
            for i in j..n {
                a[i][j] -= a[i][k] * a[j][k];
            }
        }
        let root = a[j][j].sqrt();
        (j..n).for_each(|i| a[i][j] /= root);
    }
    for i in 0..n {
        x[i] = (x[i] - (0..i).map(|k| a[i][k] * x[k]).sum::<f64>()) / a[i][i];
    }
    for i in (0..n).rev() {
        x[i] = (x[i] - (i + 1..n).map(|k| a[k][i] * x[k]).sum::<f64>()) / a[i][i];
    }
    x
}
