//! Leveling: molten powder evens out over a third of a millimeter.

use crate::base::grid::Grid;
use crate::base::lanes::{Four, LANES, Number, fours, load, store};
use crate::base::scalar::exp;

/// Standard deviation of the leveling of molten powder, mm. At 0.4 it looks airbrushed.
pub const LEVELING: f32 = 0.30;

/// Scales a plane of nothing less than 0 by `scale` and blurs it by a Gaussian of this deviation in mm; nothing goes over the rim. `finish`
/// makes of a row at y mm what makes of what comes out, at four places x in mm, what is kept. Where nothing lies, nothing is asked.
pub fn blur<F: Fn(Four, Four) -> Four>(
    grid: &Grid,
    plane: &[f32],
    (deviation, scale): (f32, f32),
    finish: impl Fn(f32) -> F + Sync,
) -> Vec<f32> {
    let kernel: Vec<f32> = gaussian(deviation / grid.cell());
    let (n, reach) = (grid.n(), kernel.len() / 2);
    let blocks = n.div_ceil(TOGETHER);
    let holds = |cells: &[f32]| cells.iter().fold(0, |bits, x| bits | x.to_bits()) != 0;
    let held: Vec<bool> = plane.chunks(n).flat_map(|row| row.chunks(TOGETHER)).map(holds).collect();
    let mut out = vec![0.0f32; plane.len()];
    // For each row the sums down its columns first, then across them.
    grid.fill(&mut out, |row, first, cells| {
        let (above, below) = (row.saturating_sub(reach), (row + reach + 1).min(n));
        let held_about = |block: usize| (above..below).any(|row| held[row * blocks + block]);
        let held: Vec<bool> = (0..blocks).map(held_about).collect();
        if !held.contains(&true) {
            return;
        }
        let rows = (above..below).map(|from| (&plane[from * n..][..n], kernel[from + reach - row] * scale));
        let rows: Vec<(&[f32], f32)> = rows.collect();
        let mut sums = vec![0.0f32; blocks * TOGETHER + 2 * reach + TOGETHER];
        for block in (0..blocks).filter(|block| held[*block]) {
            let column = block * TOGETHER;
            let sum = weighed(rows.iter().map(|(row, weight)| (&row[column..], *weight)));
            for (out, sum) in sums[reach + column..].chunks_exact_mut(LANES).zip(sum) {
                store(out, sum);
            }
        }
        let finish = finish(grid.y(row));
        for (column, cells) in (first..).step_by(TOGETHER).zip(cells.chunks_mut(TOGETHER)) {
            let last = (column + TOGETHER - 1 + reach) / TOGETHER;
            if !held[column.saturating_sub(reach) / TOGETHER..=last.min(blocks - 1)].contains(&true) {
                continue;
            }
            let sum = weighed(kernel.iter().enumerate().map(|(k, weight)| (&sums[column + k..], *weight)));
            for ((k, four), glass) in cells.chunks_mut(LANES).enumerate().zip(sum) {
                if glass.any_above(0.0) {
                    store(four, finish(glass, grid.four_x(column + LANES * k)));
                }
            }
        }
    });
    out
}

/// Fours of columns that are summed together: as many sums as stay in registers.
const FOURS: usize = 4;
const TOGETHER: usize = FOURS * LANES;

/// The weighed sum of the beginnings of some rows.
#[inline]
fn weighed<'a>(rows: impl Iterator<Item = (&'a [f32], f32)> + Clone) -> [Four; FOURS] {
    let mut sum = [Four::splat(0.0); FOURS];
    for (row, weight) in rows.clone() {
        // Nothing but this lies within the loop, or the sums would not stay in registers.
        let Some(row) = fours::<FOURS>(row) else { return weighed_to_their_end(rows) };
        for k in 0..FOURS {
            sum[k] += row[k] * weight;
        }
    }
    sum
}

/// The same of rows that are shorter.
#[cold]
fn weighed_to_their_end<'a>(rows: impl Iterator<Item = (&'a [f32], f32)>) -> [Four; FOURS] {
    let mut sum = [Four::splat(0.0); FOURS];
    for (row, weight) in rows {
        for (sum, four) in sum.iter_mut().zip(row.chunks(LANES)) {
            *sum += load(four) * weight;
        }
    }
    sum
}

/// A Gaussian of this standard deviation (in cells), cut at three of them, adding up to 1.
pub fn gaussian(deviation: f32) -> Vec<f32> {
    let reach = (3.0 * deviation + 0.5) as i32;
    let weight = |k: i32| {
        // The mean over the cell, by three points, so that narrow kernels keep their width.
        let at = |x: f64| exp(-0.5 * x * x / f64::from(deviation * deviation));
        (at(f64::from(k) - 1.0 / 3.0) + at(f64::from(k)) + at(f64::from(k) + 1.0 / 3.0)) as f32
    };
    let weights: Vec<f32> = (-reach..=reach).map(weight).collect();
    let sum: f32 = weights.iter().sum();
    weights.into_iter().map(|w| w / sum).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::disc::Disc;
    use crate::base::units::Mm;

    fn level(grid: &Grid, plane: &[f32], scale: f32) -> Vec<f32> {
        blur(grid, plane, (LEVELING, scale), |_| |glass, _| glass)
    }

    /// A small disc in cells of 0.05 mm, and the plane of a depth at (x, y) mm.
    fn plane(depth: impl Fn(f32, f32) -> f32) -> (Grid, Vec<f32>) {
        let grid = Grid::new(Disc::new(Mm(10.0)), 200);
        let mut plane = vec![0.0; grid.len()];
        grid.each(|i, column, row| plane[i] = depth(grid.x(column), grid.y(row)));
        (grid, plane)
    }

    /// A point becomes a Gaussian of 0.30 mm: exp(-r²/(2 0.09))/(2 pi 0.09), and so says its second moment.
    #[test]
    fn a_point_spreads_to_a_gaussian() {
        let (grid, mut point) = plane(|_, _| 0.0);
        let middle = grid.cell_at(0.001, 0.001);
        point[middle] = 1.0 / grid.cell_area();
        let out = level(&grid, &point, 0.5);
        let (x0, y0) = (grid.x(middle % grid.n()), grid.y(middle / grid.n()));
        let (mut sum, mut square) = (0.0, 0.0);
        grid.each(|i, column, row| {
            let (dx, dy) = (f64::from(grid.x(column) - x0), f64::from(grid.y(row) - y0));
            let want = 0.5 * exp(-(dx * dx + dy * dy) / 0.18) / (2.0 * std::f64::consts::PI * 0.09);
            // The kernel is cut at three deviations, which takes 0.3 % of it each way.
            assert!((f64::from(out[i]) - want).abs() < 0.015, "{dx}, {dy}: {} for {want}", out[i]);
            sum += f64::from(out[i]);
            square += f64::from(out[i]) * dx * dx;
        });
        let area = f64::from(grid.cell_area());
        assert!((sum * area - 0.5).abs() < 1e-4, "glass {}", sum * area);
        let deviation = (square / sum).sqrt();
        assert!((deviation / 0.30 - 1.0).abs() < 0.02, "{deviation} mm");
    }

    /// A step becomes an error function: erf(x/(0.3 sqrt 2)), by tabled values at 0, 1/2, 1 and 2 deviations (Abramowitz and
    /// Stegun 1964, table 26.1, from memory).
    #[test]
    fn a_step_becomes_an_error_function() {
        // The step lies between two cells, at x = 0.
        let (grid, step) = plane(|x, _| if x > 0.0 { 1.0 } else { 0.0 });
        let out = level(&grid, &step, 1.0);
        let at = |x: f32| {
            let (left, right) = (out[grid.cell_at(x - 0.024, 0.01)], out[grid.cell_at(x + 0.026, 0.01)]);
            f64::from(0.5 * (left + right))
        };
        for (deviations, want) in
            [(0.0, 0.5), (0.5, 0.691_46), (1.0, 0.841_34), (2.0, 0.977_25), (-1.0, 0.158_66)]
        {
            let got = at(0.3 * deviations);
            assert!((got - want).abs() < 0.006, "{deviations} deviations: {got}, not {want}");
        }
    }

    /// Each weight is the mean of the bell at three points of its cell: exp(-x²/(2 d²)) at k - 1/3, k and k + 1/3, over their sum.
    #[test]
    fn a_kernel_is_a_bell_over_cells() {
        for (deviation, reach) in [(0.1f32, 0), (0.36, 1), (1.0, 3), (2.0, 6), (2.5, 8)] {
            let kernel = gaussian(deviation);
            assert_eq!(kernel.len(), 2 * reach + 1, "cut at three deviations");
            let d = f64::from(deviation);
            let bell = |x: f64| exp(-x * x / (2.0 * d * d));
            let cell =
                |k: i32| [-1.0, 0.0, 1.0].map(|third| bell(f64::from(k) + third / 3.0)).iter().sum::<f64>();
            let reach = reach as i32;
            let sum: f64 = (-reach..=reach).map(cell).sum();
            for (weight, k) in kernel.iter().zip(-reach..) {
                assert!((f64::from(*weight) - cell(k) / sum).abs() < 1e-6, "{deviation}, {k}: {weight}");
            }
        }
    }
}
