//! The patches of a coat as they fall, before any hand moves them: a function of millimeters in the layout's frame.

use super::edge::Edge;
use super::warp::Warped;
use crate::base::lanes::Number;

/// The field whose high places are the patches.
#[derive(Debug)]
pub(super) struct PatchFall {
    pub(super) edge: Edge,
    pub(super) warped: Warped<2>,
    /// The field's value at the outlines.
    pub(super) cut: f32,
    /// -1: patches gather at the crown; 1: at the rim.
    pub(super) toward_rim: f32,
    /// Radius of the disc, mm.
    pub(super) radius: f32,
    /// How far from the layout's middle the field is tabulated, mm: patches end there.
    pub(super) reach: f32,
}

impl PatchFall {
    /// About how far within a patch's outline a place lies, mm; negative outside.
    #[inline]
    pub(super) fn inside<T: Number>(&self, u: T, v: T) -> T {
        let [height, inverse_slope] = self.warped.all(u, v);
        (height + pull(u, v, self.toward_rim, self.radius) - self.cut) * inverse_slope
    }

    /// The same, with the patches ended where the table of the field ends: what is pulled in from beyond the rim has
    /// an edge there too.
    #[inline]
    pub(super) fn inside_reach<T: Number>(&self, u: T, v: T) -> T {
        (-(u * u + v * v).root() + (self.reach - 2.0)).at_most(self.inside(u, v))
    }
}

/// What a pull of the patches toward the rim (or, negative, the crown) adds to the field.
#[inline]
pub(super) fn pull<T: Number>(x: T, y: T, toward_rim: f32, radius: f32) -> T {
    ((x * x + y * y) / (radius * radius) - 0.5) * (2.0 * toward_rim)
}
