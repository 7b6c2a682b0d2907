//! The edge of the disc: one sheet's edge above the other, each with its own color.

use crate::base::lanes::Number;
use crate::base::scalar::{lerp, smoothstep};
use crate::color::srgb::Linear;

/// The edge of one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Where it ends, as a share of the whole thickness from the inner face of the piece.
    pub upto: f32,
    /// By the light it sends back.
    pub shown: Linear,
    /// By the light that comes out of it.
    pub through: Linear,
}

/// The edges of the sheets, from the inner face of the piece to the outer one.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge(pub Vec<Band>);

/// Half the width over which two sheets run into each other, as a share of the whole thickness (by eye).
const SOFT: f32 = 0.045;

impl Edge {
    /// What the edge looks like at a share of the thickness from the inner face: by the light it sends back and by the light
    /// that comes out of it.
    #[inline]
    pub fn at<N: Number>(&self, share: N) -> (Linear<N>, Linear<N>) {
        let Some((first, rest)) = self.0.split_first() else { return ([N::of(0.0); 3], [N::of(0.0); 3]) };
        let (mut shown, mut through, mut upto) =
            (first.shown.map(N::of), first.through.map(N::of), first.upto);
        for band in rest {
            let over = smoothstep(upto - SOFT, upto + SOFT, share);
            for k in 0..3 {
                shown[k] = lerp(shown[k], N::of(band.shown[k]), over);
                through[k] = lerp(through[k], N::of(band.through[k]), over);
            }
            upto = band.upto;
        }
        (shown, through)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_sheets_show_two_bands() {
        let band = |upto, gray| Band { upto, shown: [gray; 3], through: [1.0 - gray; 3] };
        let edge = Edge(vec![band(0.5, 0.1), band(1.0, 0.8)]);
        assert_eq!(edge.at(0.3).0, [0.1; 3]);
        assert_eq!(edge.at(0.7).0, [0.8; 3]);
        assert!((edge.at(0.5).1[0] - 0.55).abs() < 1e-6, "in the middle half of each");
    }
}
