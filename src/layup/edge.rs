//! How deep a patch lies from its outline inward and outward.

use crate::base::lanes::Number;
use crate::base::scalar::{Bounds, eased, exp2, lerp, within};
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
    pub(super) fn share<T: Number>(&self, inside: T) -> T {
        let margin = within(inside * self.per_margin, 0.0, 1.0);
        let body = eased((inside + self.soft) * self.per_soft) * lerp(T::of(self.left), T::of(1.0), margin);
        if !(-inside).any_above(-self.soft) {
            return body;
        }
        let dust = exp2(inside.at_most(T::of(0.0)) * self.dust_per_mm) * self.dust;
        let all = inside.above(T::of(self.soft), body, body.at_least(dust));
        T::of(-self.end).above(inside, T::of(0.0), all)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;

    fn edge() -> Edge {
        Edge::new(&Patches {
            soft_edge: Mm(2.0),
            thin_margin: Mm(5.0),
            margin_left: 0.4,
            stray_dust: 0.05,
            stray_reach: Mm(3.0),
            ..Patches::usual()
        })
    }

    /// By hand: a cubic step 2 mm wide about the outline, of 0.4 of the depth there, rising to all of it over 5 mm; beside it
    /// dust of 0.05 that falls to 1/e in 3 mm.
    #[test]
    fn a_patch_rises_as_it_is_said_to() {
        let edge = edge();
        for (inside, want) in [
            (10.0, 1.0),
            (5.0, 1.0),
            (2.5, 0.7),
            (1.0, 0.4 + 0.6 / 5.0),
            // Half way up the step: 0.5 of 0.4.
            (0.0, 0.2),
            // A quarter of its width: 3/16 - 1/32 of 0.4.
            (-0.5, 0.4 * 0.15625),
            (-1.0, 0.05 * 0.716_531),
            (-3.0, 0.05 * 0.367_879),
            (-16.0, 0.0),
        ] {
            let got = edge.share(inside);
            assert!((got - want).abs() < 1e-4, "{inside} mm inside: {got}, not {want}");
        }
    }

    #[test]
    fn without_dust_a_patch_ends_with_its_soft_edge() {
        let edge = Edge::new(&Patches { soft_edge: Mm(2.0), stray_dust: 0.0, ..Patches::usual() });
        assert_eq!(edge.share(-1.01), 0.0);
        assert!(edge.share(-0.9) > 0.0);
    }
}
