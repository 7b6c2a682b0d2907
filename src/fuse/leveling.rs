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
