//! A color for every cell of a disc, and the light that colors are made for.

use crate::base::grid::Grid;
use crate::base::lanes::Number;
use crate::base::scalar::Bounds;
use crate::color::srgb::{Linear, luminance};

/// Reflectance of the table by day, linear: what lies under a piece of glass. In full light it shows as 0.305, the gray 0x96.
pub const TABLE: f32 = 0.3631;
/// Full light on a perfect white shows as this, linear: the rest is headroom for gloss (chosen by eye).
pub const WHITE: f32 = 0.84;

/// Color of the usual lamp, linear: about what a garden lamp of 2700 K looks like beside daylight, toned down (by eye).
pub const LAMP: Linear = [1.0, 0.86, 0.68];

/// The lamp of this color that a bare blank which passes this shows well by (by eye): the eye gets used to its brightness, not to its color.
pub fn lamp_for(lamp: Linear, bare_through: Linear) -> Linear {
    let passed = luminance([0, 1, 2].map(|k| lamp[k] * bare_through[k]));
    lamp.map(|c| c * 0.84 / passed.at_least(0.02))
}

/// A color per cell, linear sRGB with a perfect white being 1.
#[derive(Clone, Debug)]
pub struct ColorField {
    /// The grid.
    pub grid: Grid,
    /// Of each cell red, green, blue, and the share of what comes through that was scattered on its way: 0 but in a field of the light
    /// that comes through a clear blank. Cells off the disc hold black.
    pub cells: Vec<[f32; 4]>,
}

impl ColorField {
    /// All black, without haze.
    pub fn black(grid: Grid) -> Self {
        Self { grid, cells: vec![[0.0; 4]; grid.len()] }
    }

    /// A cell's color.
    pub fn color(&self, cell: usize) -> Linear {
        let [r, g, b, _] = self.cells[cell];
        [r, g, b]
    }

    /// The color at (x, y) mm, interpolated; beyond the rim, the rim's.
    #[inline]
    pub fn sample<N: Number>(&self, x: N, y: N) -> Linear<N> {
        self.sample_with_haze(x, y).0
    }

    /// The same with the haze there.
    #[inline]
    pub fn sample_with_haze<N: Number>(&self, x: N, y: N) -> (Linear<N>, N) {
        let grid = &self.grid;
        let (radius, per_mm, n) = (grid.disc().radius(), 1.0 / grid.cell(), grid.n());
        // A little inside the rim all four cells about a place lie on the disc.
        let most = radius - 1.5 * grid.cell();
        let r2 = x * x + y * y;
        let (x, y) = if r2.any_above(most * most) {
            let pull = r2.above(N::of(most * most), N::of(most) / r2.root(), N::of(1.0));
            (x * pull, y * pull)
        } else {
            (x, y)
        };
        let place = |along: N| ((along + radius) * per_mm - 0.5).point_among(n);
        let [r, g, b, haze] = N::between(&self.cells, n, place(x), place(-y));
        ([r, g, b], haze)
    }
}
