//! The rounded end of the disc.

/// How far from the inner face, as a share of the thickness, a place on a rounded rim lies: `around` is 0 where the rim leaves the outer
/// face, 1 at the very end of the sheet, 2 at the inner face (see [`super::shell::Surface`]).
pub fn share_around(around: f32) -> f32 {
    let off = if around <= 1.0 { around } else { 2.0 - around };
    let height = (1.0 - off * off).clamp(0.0, 1.0).sqrt();
    if around <= 1.0 { 0.5 + 0.5 * height } else { 0.5 - 0.5 * height }
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
