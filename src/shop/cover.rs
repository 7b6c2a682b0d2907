//! What loose powder hides: how deep it must lie to count as a cover, and what it lies on.

use crate::base::grid::Grid;
use serde::{Deserialize, Serialize};
use std::ops::Deref;

/// Loose powder thinner than this, mm, lies as specks on what is below it and hides little: about one grain by the sieve
/// (common practice, no source).
pub const COVERS: f32 = 0.08;

/// What powder lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Base {
    /// The uppermost sheet.
    Sheet,
    /// The coat with this id.
    Coat(u32),
}

/// How much of a coat, mm of loose powder times mm², lies on each of what was there when it was sifted: on the sheet, then
/// on each coat below it, in order.
pub fn volumes_by_base<P: Deref<Target = Vec<f32>>>(grid: &Grid, below: &[P], coat: &[f32]) -> Vec<f64> {
    let mut volumes = vec![0.0; below.len() + 1];
    grid.each(|cell, column, row| {
        let on = below.iter().rposition(|plane| plane[cell] >= COVERS).map_or(0, |at| at + 1);
        volumes[on] += f64::from(coat[cell]) * f64::from(grid.share(column, row));
    });
    let area = f64::from(grid.cell_area());
    volumes.into_iter().map(|volume| volume * area).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::disc::Disc;
    use crate::base::units::Mm;

    #[test]
    fn powder_lies_on_the_uppermost_coat_that_covers() {
        let grid = Grid::new(Disc::new(Mm(100.0)), 64);
        let left = |depth: f32| -> Vec<f32> {
            (0..grid.len()).map(|cell| if cell % 64 < 32 { depth } else { 0.0 }).collect()
        };
        let (ground, dust, coat) = (left(0.3), left(0.01), vec![1.0; grid.len()]);
        let volumes = volumes_by_base(&grid, &[&ground, &dust], &coat);
        let half = grid.integral(&coat) / 2.0;
        assert!((volumes[0] - half).abs() < 1e-6 * half, "half of it lies on the sheet");
        assert!((volumes[1] - half).abs() < 1e-6 * half, "half on the ground");
        assert_eq!(volumes[2], 0.0, "dust is no base");
        let upper = volumes_by_base(&grid, &[&coat, &ground], &coat);
        assert!((upper[2] - half).abs() < 1e-6 * half && (upper[1] - half).abs() < 1e-6 * half, "{upper:?}");
    }
}
