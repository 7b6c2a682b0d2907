//! Stress between glasses against Timoshenko 1925 (J. Opt. Soc. Am. 11, 233, from memory) in closed form, and against the balance of
//! forces and moments that it stands on.

use super::table::near;
use dappledome::glass::misfit::{Layer, Stress, together};

fn layers(upper: f64, lower: f64, more: f64) -> (Layer, Layer) {
    (Layer { thickness: upper, expansion: 9.0 + more }, Layer { thickness: lower, expansion: 9.0 })
}

fn stress(upper: f64, lower: f64, more: f64) -> Stress {
    let (upper, lower) = layers(upper, lower, more);
    Stress::of(upper, lower)
}

/// Equal layers: half of E' epsilon at the seam, a quarter of it the other way at the free faces; E' = 70 GPa / 0.8, 480 K.
#[test]
fn equal_layers_have_half_at_the_seam_and_a_quarter_at_the_faces() {
    for (more, seam) in [(0.1, 2.1), (0.3, 6.3), (0.5, 10.5), (1.0, 21.0)] {
        let Stress { upper, lower } = stress(3.0, 3.0, more);
        near("upper at the seam", upper[1], seam, 1e-9);
        near("lower at the seam", lower[0], -seam, 1e-9);
        near("upper face", upper[0], -seam / 2.0, 1e-9);
        near("lower face", lower[1], seam / 2.0, 1e-9);
    }
}

/// 0.3 mm on 3 mm, 0.5e-6/K apart: own arithmetic by Timoshenko's curvature 6 epsilon t1 t2 / h³.
#[test]
fn a_thin_layer_takes_nearly_all_of_it() {
    let Stress { upper, lower } = stress(0.3, 3.0, 0.5);
    for (got, want) in [(upper[0], 13.88), (upper[1], 14.83), (lower[0], -6.17), (lower[1], 3.30)] {
        near("stress", got, want, 0.005);
    }
    assert_eq!(stress(0.3, 3.0, 0.5).pulls(), [upper[1], lower[1]]);
    // One that shrinks less is pressed; what it lies on is pulled a little.
    let kinder = stress(0.3, 3.0, -0.5).pulls();
    near("pressed", kinder[0], 0.0, 1e-12);
    near("pulled", kinder[1], 6.17, 0.005);
}

/// Nothing holds the plate from outside: forces and moments over its thickness are zero (stress is straight within a layer), and across
/// the seam stress jumps by E' epsilon, since both are bonded there.
#[test]
fn forces_and_moments_balance() {
    for (up, low, more) in [(0.1, 6.0, 0.4), (2.0, 3.0, -0.7), (5.0, 1.0, 2.0), (3.0, 3.0, 0.2)] {
        let Stress { upper, lower } = stress(up, low, more);
        let mean = |two: [f64; 2]| (two[0] + two[1]) / 2.0;
        near("force", up * mean(upper) + low * mean(lower), 0.0, 1e-9);
        // About the lower face: a trapezoid's moment is that of its mean at its middle and of its slope about it.
        let own = |thick: f64, two: [f64; 2], middle: f64| {
            thick * mean(two) * middle + (two[0] - two[1]) * thick * thick / 12.0
        };
        near("moment", own(low, lower, low / 2.0) + own(up, upper, low + up / 2.0), 0.0, 1e-9);
        near("jump", upper[1] - lower[0], 87_500.0 * 480.0e-6 * more, 1e-9);
    }
}

#[test]
fn layers_taken_together_have_the_mean_of_their_glass() {
    let (upper, lower) = layers(1.0, 3.0, 0.4);
    assert_eq!(together([lower]), lower);
    let both = together([upper, lower]);
    near("thickness", both.thickness, 4.0, 1e-12);
    near("expansion", both.expansion, 9.1, 1e-12);
}
