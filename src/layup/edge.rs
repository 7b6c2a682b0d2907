//! How deep a patch lies from its outline inward and outward.

use crate::base::scalar::{Bounds, exp2, lerp};
use crate::recipe::Patches;

/// How a patch rises from its outline: numbers of [`Patches`], made ready for a loop.
#[derive(Debug)]
pub(super) struct Edge {
    soft: f32,
    per_soft: f32,
    per_margin: f32,
    left: f32,
    dust: f32,
    /// Halvings of the dust per mm.
    dust_per_mm: f32,
    /// How far out there is any powder, mm.
    pub(super) end: f32,
}

impl Edge {
    pub(super) fn new(patches: &Patches) -> Self {
        let soft = patches.soft_edge.f32().at_least(0.02) / 2.0;
        let reach = patches.stray_reach.f32();
        let dusty = reach > 0.0 && patches.stray_dust > 0.0;
        Self {
            soft,
            per_soft: 0.5 / soft,
            per_margin: 1.0 / patches.thin_margin.f32().at_least(1e-3),
            left: patches.margin_left as f32,
            dust: if dusty { patches.stray_dust as f32 } else { 0.0 },
            dust_per_mm: std::f32::consts::LOG2_E / reach.at_least(1e-3),
            end: if dusty { soft.at_least(5.0 * reach) } else { soft },
        }
    }

    /// The depth at a signed distance from the outline (mm, positive inside), as a share of the full depth.
    #[inline]
    pub(super) fn share(&self, inside: f32) -> f32 {
        if inside < -self.end {
            return 0.0;
        }
        let t = ((inside + self.soft) * self.per_soft).clamp(0.0, 1.0);
        let body = t * t * (3.0 - 2.0 * t) * lerp(self.left, 1.0, (inside * self.per_margin).clamp(0.0, 1.0));
        if inside > self.soft {
            return body;
        }
        body.at_least(self.dust * exp2(inside.at_most(0.0) * self.dust_per_mm))
    }
}
