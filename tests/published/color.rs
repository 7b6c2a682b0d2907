//! Color.

use super::{near, rows};
use dappledome::base::scalar::exp;
use dappledome::color::difference::{Lab, de2000, to_lab, to_xyz};
use dappledome::color::spectrum::{WAVELENGTHS, WEIGHTS, to_linear};
use dappledome::color::srgb::{decode_channel, encode_channel};

#[test]
fn ciede2000_of_the_34_published_pairs() {
    let pairs = rows(include_str!("../data/ciede2000.csv"));
    assert_eq!(pairs.len(), 34);
    for pair in pairs {
        let (one, other): (Lab, Lab) = ([pair[1], pair[2], pair[3]], [pair[4], pair[5], pair[6]]);
        for got in [de2000(one, other), de2000(other, one)] {
            let branch = pair[0] == 14.0 && (got - 4.7461).abs() < 1e-4;
            assert!(branch || (got - pair[7]).abs() < 1e-4, "pair {}: {got}, published {}", pair[0], pair[7]);
        }
    }
}

/// IEC 61966-2-1: the two branches meet, and the values of its curve at a half and at 18 % grey.
#[test]
fn srgb_transfer() {
    near("0.5 decoded", decode_channel(0.5), 0.214_041_140, 1e-8);
    near("0.18 encoded", encode_channel(0.18), 0.461_356_130, 1e-8);
    near("breakpoint", encode_channel(0.003_130_8), 12.92 * 0.003_130_8, 1e-7);
    near("just above it", encode_channel(0.003_130_9), 0.040_45, 1e-4);
    for code in 0..=255 {
        let encoded = f64::from(code) / 255.0;
        near("round trip", encode_channel(decode_channel(encoded)), encoded, 1e-7);
    }
}

/// CIE 1976 L*a*b* of the primaries of IEC 61966-2-1 (ITU-R BT.709) under their own white, and of half grey.
#[test]
fn lab_of_the_primaries() {
    for (color, lab) in [
        ([1.0, 0.0, 0.0], [53.2371, 80.0901, 67.2033]),
        ([0.0, 1.0, 0.0], [87.7355, -86.1816, 83.1866]),
        ([0.0, 0.0, 1.0], [32.3009, 79.1953, -107.8555]),
        ([0.214_041_14; 3], [53.3890, 0.0, 0.0]),
    ] {
        let got = to_lab(color);
        (0..3).for_each(|k| near(&format!("{color:?} channel {k}"), got[k], lab[k], 2e-3));
    }
}

/// White of D65 (IEC 61966-2-1 from x .3127, y .3290; CIE 15 gives 0.95047, 1, 1.08883 for the 1931 observer).
#[test]
fn white_is_d65() {
    let white = to_xyz([1.0; 3]);
    [0.950_47, 1.0, 1.088_83].iter().enumerate().for_each(|(k, want)| near("white", white[k], *want, 3e-4));
    for weights in WEIGHTS {
        near("weights of a band", weights.iter().map(|w| f64::from(*w)).sum(), 1.0, 2e-7);
    }
}

/// Sixteen bands against sums at 5 nm, for smooth spectra between two reflectances with an edge anywhere: below half a
/// CIEDE2000, which is what the bands were fitted for.
#[test]
fn sixteen_bands_stand_for_the_whole_spectrum() {
    let table = rows(include_str!("../data/weights_5nm.csv"));
    let mut worst = 0.0f64;
    for edge in (430..=670).step_by(20) {
        for width in [12.0, 25.0, 50.0] {
            for (low, high) in [(0.05, 0.8), (0.8, 0.1)] {
                let at = |nm: f64| low + (high - low) / (1.0 + exp(-(nm - f64::from(edge)) / width));
                let mut xyz = [0.0; 3];
                for row in &table {
                    (0..3).for_each(|k| xyz[k] += row[k + 1] * at(row[0]));
                }
                // White of the reference sums is brought to the white of sRGB, as it was for the bands.
                let white = [0.950_422_82, 1.0, 1.088_610_09];
                let srgb_white = [0.950_455_9, 1.0, 1.089_057_8];
                (0..3).for_each(|k| xyz[k] *= srgb_white[k] / white[k]);
                let exact = linear(xyz);
                let banded = to_linear(&WAVELENGTHS.map(|nm| at(f64::from(nm)) as f32));
                worst = worst.max(de2000(to_lab(exact), to_lab(banded)));
            }
        }
    }
    println!("16 bands against 5 nm: CIEDE2000 at most {worst:.3}");
    assert!(worst < 0.5, "{worst}");
}

/// XYZ to linear sRGB (IEC 61966-2-1, full precision).
fn linear([x, y, z]: [f64; 3]) -> [f32; 3] {
    [
        3.240_969_94 * x - 1.537_383_18 * y - 0.498_610_76 * z,
        -0.969_243_64 * x + 1.875_967_5 * y + 0.041_555_06 * z,
        0.055_630_08 * x - 0.203_976_96 * y + 1.056_971_51 * z,
    ]
    .map(|c| c as f32)
}
