//! A color for every cell of a disc, and the light that colors are made for.

use crate::base::grid::Grid;
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
    /// One color per cell; cells off the disc hold black.
    pub colors: Vec<Linear>,
    /// Share of what comes through that was scattered on its way, per cell; empty but in a field of the light that
    /// comes through a clear blank.
    pub haze: Vec<f32>,
}

impl ColorField {
    /// All black, without haze.
    pub(super) fn black(grid: Grid) -> Self {
        Self { grid, colors: vec![[0.0; 3]; grid.len()], haze: Vec::new() }
    }

    /// The color at (x, y) mm, interpolated; beyond the rim, the rim's.
    #[inline]
    pub fn sample(&self, x: f32, y: f32) -> Linear {
        let (at, (tx, ty)) = self.place(x, y);
        let n = self.grid.n();
        let (a, b) = (&self.colors[at], &self.colors[at + 1]);
        let (c, d) = (&self.colors[at + n], &self.colors[at + n + 1]);
        let mut out = [0.0; 3];
        for k in 0..3 {
            let upper = a[k] + (b[k] - a[k]) * tx;
            let lower = c[k] + (d[k] - c[k]) * tx;
            out[k] = upper + (lower - upper) * ty;
        }
        out
    }

    /// The haze at (x, y) mm; 0 if the blank is not clear.
    #[inline]
    pub fn haze_at(&self, x: f32, y: f32) -> f32 {
        if self.haze.is_empty() {
            return 0.0;
        }
        let (at, (tx, ty)) = self.place(x, y);
        let (h, n) = (&self.haze, self.grid.n());
        let upper = h[at] + (h[at + 1] - h[at]) * tx;
        let lower = h[at + n] + (h[at + n + 1] - h[at + n]) * tx;
        upper + (lower - upper) * ty
    }

    /// The cell up and left of a place, and how far beyond its middle the place lies.
    #[inline]
    fn place(&self, x: f32, y: f32) -> (usize, (f32, f32)) {
        let grid = &self.grid;
        let (radius, cell, n) = (grid.disc().radius(), grid.cell(), grid.n());
        // A little inside the rim all four cells about a place lie on the disc.
        let most = radius - 1.5 * cell;
        let r2 = x * x + y * y;
        let pull = if r2 > most * most { most / r2.sqrt() } else { 1.0 };
        let u = ((x * pull + radius) / cell - 0.5).clamp(0.0, n as f32 - 1.001);
        let v = ((radius - y * pull) / cell - 0.5).clamp(0.0, n as f32 - 1.001);
        let (i, j) = (u as usize, v as usize);
        (j * n + i, (u - i as f32, v - j as f32))
    }
}
