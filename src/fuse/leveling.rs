//! Leveling: molten powder evens out over a third of a millimeter.

use crate::base::grid::Grid;
use crate::base::scalar::exp;

/// Standard deviation of the leveling of molten powder, mm. At 0.4 it looks airbrushed.
pub const LEVELING: f32 = 0.30;

/// Scales a plane by `scale` and blurs it by the leveling length; nothing flows over the rim.
pub fn level(grid: &Grid, plane: &[f32], scale: f32) -> Vec<f32> {
    let kernel = gaussian(LEVELING / grid.cell());
    let reach = kernel.len() / 2;
    let n = grid.n();
    if reach == 0 {
        return plane.iter().map(|v| v * scale).collect();
    }
    // One row of the blur down at a time, then across it: rows outside the disc are empty and cost nothing.
    let mut out = vec![0.0f32; plane.len()];
    let mut column_sums = vec![0.0f32; n + 2 * reach];
    for row in 0..n {
        let span = grid.span(row);
        if span.is_empty() {
            continue;
        }
        column_sums.fill(0.0);
        for (k, weight) in kernel.iter().enumerate() {
            let Some(from) = (row + k).checked_sub(reach).filter(|from| *from < n) else { continue };
            let (weight, source) = (weight * scale, &plane[from * n..(from + 1) * n]);
            for (sum, v) in column_sums[reach..reach + n].iter_mut().zip(source) {
                *sum += weight * v;
            }
        }
        let target = &mut out[row * n..(row + 1) * n];
        for (k, weight) in kernel.iter().enumerate() {
            let source = &column_sums[span.start + k..span.end + k];
            for (v, sum) in target[span.clone()].iter_mut().zip(source) {
                *v += weight * sum;
            }
        }
    }
    out
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

    /// A single heap becomes a bell down and across, 0.3 mm wide; in cells much wider than that it stays.
    #[test]
    fn a_heap_flows_out_into_a_bell() {
        let grid = Grid::new(Disc::new(Mm(40.0)), 200);
        let (row, column) = (90usize, 120usize);
        let mut heap = vec![0.0; grid.len()];
        heap[row * 200 + column] = 2.0;
        let flowed = level(&grid, &heap, 0.5);
        // 0.3 mm are 1.5 cells.
        let kernel = gaussian(1.5);
        let reach = kernel.len() / 2;
        grid.each(|i, x, y| {
            let weight = |at: usize, middle: usize| {
                (at + reach).checked_sub(middle).and_then(|k| kernel.get(k)).copied().unwrap_or(0.0)
            };
            let want = weight(x, column) * weight(y, row);
            assert!((flowed[i] - want).abs() < 1e-6, "{x}, {y}: {}, not {want}", flowed[i]);
        });
        let coarse = Grid::new(Disc::new(Mm(160.0)), 8);
        let plane: Vec<f32> = (0..coarse.len()).map(|i| i as f32).collect();
        assert_eq!(level(&coarse, &plane, 0.5), plane.iter().map(|v| 0.5 * v).collect::<Vec<f32>>());
    }
}
