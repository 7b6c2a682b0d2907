//! The relief of the fused face: powder that melted into a patch stays a soft hill on the sheet.

use super::leveling::gaussian;
use super::settle::FusedDisc;
use crate::base::grid::Grid;
use crate::base::lanes::Number;

/// Standard deviation of what surface tension does to a hill during the full fuse, mm. By eye; of the order of what it should
/// be: a ripple sinks at a rate of gamma k/(2 eta) (Orchard 1962, from memory), so ten minutes of glass of some 10^5.5 Pa s level
/// what is narrower than a few mm and leave what is wider.
const SOFTENING: f32 = 1.6;
/// About the pitch of the table, mm.
const PITCH: f32 = 1.0;

/// Height of the fused face above the sheets, mm, and its slopes, at every place of the disc.
#[derive(Clone, Debug)]
pub struct Relief {
    n: usize,
    radius: f32,
    per_mm: f32,
    /// Height, mm; slope to the right and slope up, mm per mm; and nothing. Row 0 is at the top.
    values: Vec<[f32; 4]>,
}

impl Relief {
    /// The relief of a fused disc: its glass above the sheets, softened. No glass is lost, and none flows over the rim.
    pub fn new(disc: &FusedDisc) -> Self {
        let blocks = Blocks::new(disc);
        let (n, pitch) = (blocks.n, blocks.pitch);
        let kernel = gaussian(SOFTENING / pitch);
        let glass = blur(&blocks.glass, n, &kernel);
        let cells = blur(&blocks.cells, n, &kernel);
        // Near the rim the mean is over the disc alone.
        let heights: Vec<f32> = glass
            .iter()
            .zip(&cells)
            .map(|(sum, count)| if *count > 1e-3 { sum / count } else { 0.0 })
            .collect();
        let values = (0..n * n)
            .map(|at| {
                let (row, column) = (at / n, at % n);
                let across = slope(|k| heights[row * n + k], column, n);
                let down = slope(|k| heights[k * n + column], row, n);
                [heights[at], across / pitch, -down / pitch, 0.0]
            })
            .collect();
        Self { n, radius: disc.grid.disc().radius(), per_mm: 1.0 / pitch, values }
    }

    /// Height, mm, and slope to the right and up, mm per mm, at (x, y) mm; beyond the disc, those of its edge.
    #[inline]
    pub fn at<N: Number>(&self, x: N, y: N) -> [N; 3] {
        let (across, down) = (self.place(x + self.radius), self.place(-y + self.radius));
        let [height, right, up, _] = N::between(&self.values, self.n, across, down);
        [height, right, up]
    }

    #[inline]
    fn place<N: Number>(&self, from_edge: N) -> (N, N) {
        (from_edge * self.per_mm - 0.5).point_among(self.n)
    }
}

/// Square blocks of cells: glass in each, mm times cells, and how many of its cells lie on the disc.
struct Blocks {
    n: usize,
    /// Side of a block, mm.
    pitch: f32,
    glass: Vec<f32>,
    cells: Vec<f32>,
}

impl Blocks {
    fn new(disc: &FusedDisc) -> Self {
        let grid: &Grid = &disc.grid;
        let side = ((PITCH / grid.cell()) as usize).max(1);
        let n = grid.n().div_ceil(side).max(2);
        let mut glass = vec![0.0f32; n * n];
        let mut cells = vec![0.0f32; n * n];
        let mut sums = vec![0.0f32; grid.n()];
        for row in 0..grid.n() {
            let span = grid.span(row);
            let sums = &mut sums[span.clone()];
            sums.fill(0.0);
            for plane in disc.coats.iter().chain(&disc.mixture) {
                let depths = &plane[row * grid.n()..][span.clone()];
                sums.iter_mut().zip(depths).for_each(|(sum, depth)| *sum += depth);
            }
            let target = row / side * n;
            let mut first = span.start;
            while first < span.end {
                // As far as the block reaches that the cell lies in.
                let (block, end) = (first / side, ((first / side + 1) * side).min(span.end));
                glass[target + block] += sums[first - span.start..end - span.start].iter().sum::<f32>();
                cells[target + block] += (end - first) as f32;
                first = end;
            }
        }
        Self { n, pitch: side as f32 * grid.cell(), glass, cells }
    }
}

/// A square of `n` x `n` values, blurred along its rows and then across them; nothing lies beyond it.
fn blur(values: &[f32], n: usize, kernel: &[f32]) -> Vec<f32> {
    let reach = kernel.len() / 2;
    let mut across = vec![0.0f32; n * n];
    for (out, row) in across.chunks_exact_mut(n).zip(values.chunks_exact(n)) {
        for (k, weight) in kernel.iter().enumerate() {
            // Place i takes what lies at i + k - reach.
            let (to, from) = (reach.saturating_sub(k).min(n), k.saturating_sub(reach).min(n));
            out[to..].iter_mut().zip(&row[from..]).for_each(|(out, v)| *out += weight * v);
        }
    }
    let mut down = vec![0.0f32; n * n];
    for (k, weight) in kernel.iter().enumerate() {
        let (to, from) = (reach.saturating_sub(k).min(n), k.saturating_sub(reach).min(n));
        down[to * n..].iter_mut().zip(&across[from * n..]).for_each(|(out, v)| *out += weight * v);
    }
    down
}

/// The slope per step at place `i` of `n`, by five places: what three give is too flat along the axes of the table.
fn slope(at: impl Fn(usize) -> f32, i: usize, n: usize) -> f32 {
    let (least, most) = (i.saturating_sub(2), (i + 2).min(n - 1));
    if most - least < 4 {
        let (before, after) = (i.saturating_sub(1), (i + 1).min(n - 1));
        return (at(after) - at(before)) / (after - before) as f32;
    }
    (8.0 * (at(i + 1) - at(i - 1)) - (at(i + 2) - at(i - 2))) / 12.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::disc::Disc;
    use crate::base::scalar::{Bounds, exp};
    use crate::base::units::Mm;

    /// A disc with this much glass on it, mm at (x, y), half of it in a mixture.
    fn disc(cells: usize, glass: impl Fn(f32, f32) -> f32) -> FusedDisc {
        let grid = Grid::new(Disc::new(Mm(160.0)), cells);
        let mut plane = vec![0.0; grid.len()];
        grid.each(|i, column, row| plane[i] = 0.5 * glass(grid.x(column), grid.y(row)));
        FusedDisc { grid, coats: vec![plane.clone()], mixture: vec![plane] }
    }

    #[test]
    fn an_even_layer_is_level_to_the_rim() {
        for cells in [192, 512] {
            let relief = Relief::new(&disc(cells, |_, _| 0.7));
            for (x, y) in [(0.0, 0.0), (79.0, 0.0), (0.0, -79.0), (-55.0, 55.0)] {
                let [height, right, up] = relief.at(x, y);
                assert!((height - 0.7).abs() < 1e-4, "{height} at {x}, {y}");
                assert!(right.abs() < 1e-3 && up.abs() < 1e-3, "{right}, {up} at {x}, {y}");
            }
        }
    }

    /// A Gaussian hill stays one: its variance grows by that of the softening, its glass stays.
    #[test]
    fn a_hill_widens_as_it_must() {
        let square = 5.0f32 * 5.0;
        let hill = |x: f32, y: f32| {
            let (x, y) = (x - 11.0, y + 7.0);
            1.35 * exp(f64::from(-(x * x + y * y) / (2.0 * square))) as f32
        };
        for cells in [192, 512, 1024] {
            let relief = Relief::new(&disc(cells, hill));
            let soft = square + SOFTENING * SOFTENING;
            for (dx, dy) in [(0.0, 0.0), (4.0, 0.0), (0.0, -4.0), (-6.0, 3.0), (2.5, 9.0)] {
                let height =
                    1.35 * square / soft * exp(f64::from(-(dx * dx + dy * dy) / (2.0 * soft))) as f32;
                let [got, right, up] = relief.at(11.0 + dx, -7.0 + dy);
                assert!((got - height).abs() < 0.015, "{cells} cells, {dx}, {dy}: {got} for {height}");
                assert!((right + dx / soft * height).abs() < 0.006, "{cells} cells, {dx}, {dy}: {right}");
                assert!((up + dy / soft * height).abs() < 0.006, "{cells} cells, {dx}, {dy}: {up}");
            }
        }
    }

    /// A step of glass becomes a soft flank, as steep whichever way it runs.
    #[test]
    fn a_flank_is_as_steep_along_the_axes_as_aslant() {
        let steepest = |nx: f32, ny: f32| {
            let relief = Relief::new(&disc(512, |x, y| if x * nx + y * ny > 3.1 { 1.35 } else { 0.0 }));
            let at = |k: u16| {
                let [_, right, up] =
                    relief.at((2.0 + f32::from(k) * 0.02) * nx, (2.0 + f32::from(k) * 0.02) * ny);
                right * nx + up * ny
            };
            (0..110).map(at).fold(0.0, f32::at_least)
        };
        let straight = steepest(1.0, 0.0);
        let aslant = steepest(std::f32::consts::FRAC_1_SQRT_2, std::f32::consts::FRAC_1_SQRT_2);
        // A Gaussian's middle: 1.35/(1.6 sqrt(2 pi)).
        println!("flank: {straight:.4} and {aslant:.4} for 0.3366");
        assert!((straight / aslant - 1.0).abs() < 0.025 && (straight / 0.3366 - 1.0).abs() < 0.06);
    }
}
