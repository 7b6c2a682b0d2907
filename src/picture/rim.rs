//! The rounded end of the disc.

use crate::base::lanes::Number;
use crate::base::scalar::within;

/// How far from the inner face, as a share of the thickness, a place on a rounded rim lies: `around` is 0 where the rim leaves the outer
/// face, 1 at the very end of the sheet, 2 at the inner face (see [`super::shell::Surface`]).
#[inline]
pub fn share_around<N: Number>(around: N) -> N {
    // Beyond the end of the sheet the same again, the other way about.
    let off = -(around - 1.0).size() + 1.0;
    let half = within(-(off * off) + 1.0, 0.0, 1.0).root() * 0.5;
    around.above(N::of(1.0), -half, half) + 0.5
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rim_is_a_half_circle() {
        // Degrees around a half circle, and the height there: (1 + cos)/2 of the thickness.
        for degrees in [0.0f64, 30.0, 60.0, 90.0, 120.0, 150.0, 180.0] {
            let sine = crate::base::scalar::sin_cos(degrees.to_radians());
            let around = if degrees <= 90.0 { sine.0 } else { 2.0 - sine.0 };
            assert!(
                (f64::from(share_around(around as f32)) - (1.0 + sine.1) / 2.0).abs() < 1e-3,
                "{degrees}"
            );
        }
    }
}
