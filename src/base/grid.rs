//! A square grid of cells laid over the disc: every field of the engine is one value per cell.

use super::disc::Disc;
use super::lanes::{Four, LANES, Number, counted, store};
use super::rows::each_row;
use crate::base::scalar::{Bounds, within};
use std::ops::Range;

/// `n` x `n` square cells that just cover a disc. Row 0 is at the top (largest y).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    disc: Disc,
    n: usize,
    cell: f32,
}

impl Grid {
    /// A grid of `n` cells across the disc, at least three, so that every cell has neighbors to be compared with.
    pub fn new(disc: Disc, n: usize) -> Self {
        let n = n.max(3);
        Self { disc, n, cell: 2.0 * disc.radius() / n as f32 }
    }

    /// The disc it covers.
    pub fn disc(&self) -> Disc {
        self.disc
    }

    /// Cells along a side.
    pub fn n(&self) -> usize {
        self.n
    }

    /// Number of cells, those outside the disc included.
    pub fn len(&self) -> usize {
        self.n * self.n
    }

    /// A grid is never empty.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// Side of a cell, mm.
    pub fn cell(&self) -> f32 {
        self.cell
    }

    /// Area of a cell, mm².
    pub fn cell_area(&self) -> f32 {
        self.cell() * self.cell()
    }

    /// x of the middle of a column, mm.
    pub fn x(&self, column: usize) -> f32 {
        (column as f32 + 0.5) * self.cell() - self.disc.radius()
    }

    /// y of the middle of a row, mm.
    pub fn y(&self, row: usize) -> f32 {
        self.disc.radius() - (row as f32 + 0.5) * self.cell()
    }

    /// The columns of a row that the disc touches at all, so that rim cells hold a value too.
    pub fn span(&self, row: usize) -> Range<usize> {
        let (radius, cell) = (self.disc.radius(), self.cell());
        let nearest = (self.y(row).abs() - 0.5 * cell).at_least(0.0);
        let half = (radius * radius - nearest * nearest).at_least(0.0).sqrt();
        let first = ((radius - half) / cell).at_least(0.0) as usize;
        let last = ((radius + half) / cell) as usize + 1;
        first.min(self.n)..last.min(self.n)
    }

    /// The share of a cell that lies on the disc, 0 to 1, by the distance of its middle from the rim.
    ///
    /// Exact for a straight edge along the grid and within a hundredth of a cell for the rest; summed over the
    /// disc it gives the area to better than one part in 10^4 from 64 cells up.
    pub fn share(&self, column: usize, row: usize) -> f32 {
        self.share_at(self.x(column), self.y(row))
    }

    /// The same by the middle of the cell, mm.
    #[inline]
    pub fn share_at<T: Number>(&self, x: T, y: T) -> T {
        let r = (x * x + y * y).root();
        // Half of what a cell measures across the rim.
        let reach = r.above(T::of(0.0), (x.size() + y.size()) / r * 0.5, T::of(0.5));
        let inside = (-r + self.disc.radius()) / self.cell();
        within((inside / reach + 1.0) * 0.5, 0.0, 1.0)
    }

    /// Calls `f(index, column, row)` for each cell the disc touches.
    pub fn each(&self, mut f: impl FnMut(usize, usize, usize)) {
        for row in 0..self.n {
            for column in self.span(row) {
                f(row * self.n + column, column, row);
            }
        }
    }

    /// Fills a plane: `f(row, column, cells)` for each row's cells that the disc touches, of which the first lies in a column.
    pub fn fill<T: Send>(&self, plane: &mut [T], f: impl Fn(usize, usize, &mut [T]) + Sync) {
        each_row(plane, self.n, |row, cells| {
            let span = self.span(row);
            f(row, span.start, &mut cells[span]);
        });
    }

    /// Fills a plane with a field, four places at a time: `f(x, y)`, mm.
    pub fn tabulate(&self, plane: &mut [f32], f: impl Fn(Four, Four) -> Four + Sync) {
        self.fill(plane, |row, column, cells| {
            let y = Four::splat(self.y(row));
            for (column, four) in (column..).step_by(LANES).zip(cells.chunks_mut(LANES)) {
                store(four, f(self.four_x(column), y));
            }
        });
    }

    /// [`Self::x`] of a column and the three after it, mm.
    #[inline]
    pub fn four_x(&self, column: usize) -> Four {
        (counted(column as f32) + 0.5) * self.cell() - self.disc.radius()
    }

    /// The cell that holds a place on the disc.
    pub fn cell_at(&self, x: f32, y: f32) -> usize {
        let index = |mm: f32| ((mm / self.cell()).at_least(0.0) as usize).min(self.n - 1);
        let radius = self.disc.radius();
        index(radius - y) * self.n + index(x + radius)
    }

    /// The integral of a field over the disc: value times mm².
    pub fn integral(&self, field: &[f32]) -> f64 {
        let mut sum = 0.0;
        self.each(|i, column, row| {
            if field[i] != 0.0 {
                sum += f64::from(field[i]) * f64::from(self.share(column, row));
            }
        });
        sum * f64::from(self.cell_area())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;

    #[test]
    fn shares_add_up_to_the_disc() {
        for n in [64, 192, 512] {
            let grid = Grid::new(Disc::new(Mm(160.0)), n);
            let ones = vec![1.0; grid.len()];
            let off = grid.integral(&ones) / f64::from(grid.disc().area()) - 1.0;
            assert!(off.abs() < 1e-4, "{n} cells: off by {off:e}");
        }
    }
}
