//! Color against its standards.

use super::table::{near, rows, worse};
use dappledome::base::scalar::exp;
use dappledome::color::difference::{Lab, de2000, de2000_below, from_lab, to_lab, to_xyz};
use dappledome::color::spectrum::{BANDS, WAVELENGTHS, WEIGHTS, to_linear};
use dappledome::color::srgb::{Linear, decode_channel, encode_channel};

/// XYZ to linear sRGB (IEC 61966-2-1, in full digits from the primaries of ITU-R BT.709).
const TO_LINEAR: [[f64; 3]; 3] = [
    [3.240_969_94, -1.537_383_18, -0.498_610_76],
    [-0.969_243_64, 1.875_967_50, 0.041_555_06],
    [0.055_630_08, -0.203_976_96, 1.056_971_51],
];

/// Sharma, Wu & Dalal 2005, Color Res. Appl. 30, 21, table 1.
#[test]
fn ciede2000_gives_the_published_differences_both_ways_round() {
    let pairs = rows("ciede2000_pairs.csv");
    assert_eq!(pairs.len(), 34);
    let mut worst = 0.0;
    for pair in &pairs {
        let (one, other): (Lab, Lab) = ([pair[1], pair[2], pair[3]], [pair[4], pair[5], pair[6]]);
        for got in [de2000(one, other), de2000(other, one)] {
            let error =
                if pair[0] == 14.0 { (got - 4.8045).abs().min((got - 4.7461).abs()) } else { got - pair[7] };
            worst = worse(worst, error);
            assert!(error.abs() <= 1e-4, "pair {}: {got}, not {}", pair[0], pair[7]);
        }
    }
    println!("CIEDE2000: worst {worst:.1e}");
}

/// Of the published colors each with each: never told to be further apart than it is by its lightness alone.
#[test]
fn a_difference_below_a_bound_is_the_difference() {
    let pairs = rows("ciede2000_pairs.csv");
    let both = |row: &Vec<f64>| [[row[1], row[2], row[3]], [row[4], row[5], row[6]]];
    let colors: Vec<Lab> = pairs.iter().flat_map(both).collect();
    for (one, other) in colors.iter().flat_map(|one| colors.iter().map(move |other| (*one, *other))) {
        let apart = de2000(one, other);
        assert_eq!(de2000_below(one, other, apart * (1.0 + 1e-9) + 1e-12), Some(apart), "{one:?} {other:?}");
        assert_eq!(de2000_below(one, other, apart), None, "{one:?} {other:?}");
    }
}

/// IEC 61966-2-1: the two branches of the transfer, where they meet, and a value on each.
#[test]
fn the_srgb_transfer_is_the_standards() {
    near("encoded at the break", encode_channel(0.003_130_8), 12.92 * 0.003_130_8, 1e-12);
    near("decoded at the break", decode_channel(0.040_45), 0.040_45 / 12.92, 1e-12);
    near("encoded just above the break", encode_channel(0.003_130_9), 0.040_451, 2e-6);
    near("decoded just above the break", decode_channel(0.040_451), 0.003_130_8, 2e-7);
    near("0.5 decoded", decode_channel(0.5), 0.214_041_140, 1e-9);
    near("0.18 encoded", encode_channel(0.18), 0.461_356_130, 1e-9);
    for i in 0..=1000 {
        let code = f64::from(i) / 1000.0;
        near("there and back", encode_channel(decode_channel(code)), code, 1e-7);
    }
}

/// L*a*b* of the sRGB primaries, a gray and white, against the white of chromaticity (.3127, .3290): own arithmetic
/// on IEC 61966-2-1 and CIE 15.
#[test]
fn the_primaries_have_their_lab() {
    let known: [(Linear, Lab); 5] = [
        ([1.0, 0.0, 0.0], [53.2371, 80.0901, 67.2033]),
        ([0.0, 1.0, 0.0], [87.7355, -86.1816, 83.1866]),
        ([0.0, 0.0, 1.0], [32.3009, 79.1953, -107.8555]),
        ([0.214_041_14; 3], [53.3890, 0.0, 0.0]),
        ([1.0; 3], [100.0, 0.0, 0.0]),
    ];
    let mut worst = 0.0;
    for (color, want) in known {
        let got = to_lab(color);
        for i in 0..3 {
            worst = worse(worst, got[i] - want[i]);
            near("Lab", got[i], want[i], 1e-4);
        }
    }
    println!("primaries: worst {worst:.1e}");
}

/// IEC 61966-2-1: the printed matrix brings XYZ of any color back, and white is (.3127, .3290).
#[test]
fn linear_light_and_xyz_are_the_standards() {
    for color in [[1.0f32, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [0.2, 0.5, 0.9]] {
        let back = from_xyz(to_xyz(color));
        (0..3).for_each(|i| near("linear light back from XYZ", back[i], color[i].into(), 1e-7));
    }
    let white = to_xyz([1.0; 3]);
    let sum: f64 = white.iter().sum();
    near("x of white", white[0] / sum, 0.3127, 1e-7);
    near("y of white", white[1] / sum, 0.3290, 1e-7);
}

/// Own requirement: a perfect reflector is exactly white.
#[test]
fn the_weights_of_the_bands_add_up_to_white() {
    for row in WEIGHTS {
        near("sum", row.iter().map(|w| f64::from(*w)).sum(), 1.0, 1e-7);
    }
    for channel in to_linear(&[1.0; BANDS]) {
        near("white", channel.into(), 1.0, 1e-6);
    }
}

/// L*a*b* of a smooth edge at 550 nm, 10 nm wide, summed over the CIE 1931 observer under D65 at 1 nm (own sums from the
/// published tables, which are not shipped).
#[test]
fn sixteen_bands_see_a_smooth_edge_as_the_whole_spectrum_does() {
    let difference = de2000(to_lab(by_bands(550.0, 10.0)), [79.1569, 36.2714, 131.6086]);
    println!("bands: {difference:.3} CIEDE2000");
    assert!(difference <= 0.5, "{difference}");
}

fn logistic(nm: f64, edge: f64, width: f64) -> f64 {
    1.0 / (1.0 + exp((edge - nm) / width))
}

fn by_bands(edge: f64, width: f64) -> Linear {
    to_linear(&WAVELENGTHS.map(|nm| logistic(nm.into(), edge, width) as f32))
}

fn from_xyz(xyz: [f64; 3]) -> [f64; 3] {
    TO_LINEAR.map(|row| (0..3).map(|i| row[i] * xyz[i]).sum())
}

/// Backward from L*a*b*: each color of a grid of sRGB comes back (2e-6: the matrices' own digits in single precision).
#[test]
fn a_color_comes_back_from_its_lab() {
    let mut worst = 0.0;
    for i in 0..512u16 {
        let color: Linear = [i % 8, i / 8 % 8, i / 64].map(|x| f32::from(x) / 7.0);
        let back = from_lab(to_lab(color));
        for channel in 0..3 {
            near(&format!("{color:?}"), back[channel].into(), color[channel].into(), 2e-6);
            worst = worse(worst, f64::from(back[channel] - color[channel]));
        }
    }
    println!("L*a*b* and back: worst {worst:.1e}");
}
