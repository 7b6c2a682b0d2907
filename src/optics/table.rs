//! A table over thickness: everything a pixel loop needs of a layer, so that a pixel costs interpolations and
//! multiplications only.

use crate::base::lanes::{Four, LANES, Number, places};
use crate::base::scalar::Bounds;

/// Points of a table.
pub const NODES: usize = 256;

/// A table over thickness, whose entries crowd toward 0, where layers change fastest: entry `i` is `i²` units thick.
#[derive(Clone, Debug)]
pub struct Table<T> {
    per_unit: f32,
    nodes: Vec<T>,
}

/// Two neighboring entries of a table, and how far between them (0 to 1) a layer lies.
pub type Between<'a, T> = (&'a T, &'a T, f32);

impl<T> Table<T> {
    /// The unit, in mm, of a table that reaches to `deepest` mm.
    pub fn unit(deepest: f32) -> f64 {
        f64::from(deepest.at_least(1e-3)) / ((NODES - 1) * (NODES - 1)) as f64
    }

    /// A table of [`NODES`] entries of this unit.
    pub fn new(unit: f64, nodes: Vec<T>) -> Self {
        debug_assert_eq!(nodes.len(), NODES);
        Self { per_unit: (1.0 / unit) as f32, nodes }
    }

    /// The entries about a thickness in mm; beyond the table, its last ones.
    #[inline]
    pub fn at(&self, thickness: f32) -> Between<'_, T> {
        let u = self.place(thickness);
        self.between(u as usize, u.point().1)
    }

    /// The same of four thicknesses.
    #[inline]
    pub fn four_at(&self, thicknesses: Four) -> [Between<'_, T>; LANES] {
        let u = self.place(thicknesses);
        let (at, t) = (places(u), u.point().1.to_array());
        std::array::from_fn(|lane| self.between(at[lane], t[lane]))
    }

    #[inline]
    fn place<N: Number>(&self, thickness: N) -> N {
        let units = (thickness * self.per_unit).at_least(N::of(0.0));
        units.root().at_most(N::of((NODES - 1) as f32 - 0.001))
    }

    #[inline]
    fn between(&self, at: usize, t: f32) -> Between<'_, T> {
        (&self.nodes[at], &self.nodes[at + 1], t)
    }
}
