//! From a spectrum in a lamp's light to the color that an eye used to that light sees on a screen: sums every 5 nm, and the published
//! adaptation.

use super::stacks::Stack;
use dappledome::base::scalar::exp;
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::color::spectrum::{Spectrum, WAVELENGTHS, weighed};

/// A light: what each wavelength counts for, every 5 nm, as XYZ with Y of white = 1.
pub struct Light {
    /// Wavelengths, nm.
    pub nms: Vec<f64>,
    xyz: Vec<[f64; 3]>,
}

type Matrix = [[f64; 3]; 3];

/// Li et al. 2017, Color Res. Appl. 42, 703: CAT16's matrix from XYZ to sharpened cones.
pub const CAT16: Matrix =
    [[0.401288, 0.650173, -0.051461], [-0.250268, 1.204414, 0.045854], [-0.002079, 0.048952, 0.953127]];
/// XYZ to linear sRGB (IEC 61966-2-1, full digits).
const TO_LINEAR: Matrix = [
    [3.240_969_94, -1.537_383_18, -0.498_610_76],
    [-0.969_243_64, 1.875_967_50, 0.041_555_06],
    [0.055_630_08, -0.203_976_96, 1.056_971_51],
];
/// White of sRGB, XYZ.
const SCREEN: [f64; 3] = [0.950_455_9, 1.0, 1.089_057_8];

/// The degree of adaptation (Li et al. 2017; CIE 159:2004), `surround` being 1 for average, 0.9 for dim, 0.8 for dark, to a field of this
/// luminance in cd/m².
pub fn degree(surround: f64, luminance: f64) -> f64 {
    surround * (1.0 - exp(-(luminance + 42.0) / 92.0) / 3.6)
}

impl Light {
    /// The light whose columns begin at `first` in rows of the table, wavelengths first.
    pub fn read(rows: &[Vec<f64>], first: usize) -> Self {
        Self {
            nms: rows.iter().map(|row| row[0]).collect(),
            xyz: rows.iter().map(|row| [row[first], row[first + 1], row[first + 2]]).collect(),
        }
    }

    /// XYZ of a perfect white in it.
    pub fn white(&self) -> [f64; 3] {
        self.summed(&vec![1.0; self.nms.len()])
    }

    /// XYZ of a spectrum.
    pub fn summed(&self, spectrum: &[f64]) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for (value, weights) in spectrum.iter().zip(&self.xyz) {
            (0..3).for_each(|k| sum[k] += value * weights[k]);
        }
        sum
    }

    /// Linear sRGB that looks on a screen as XYZ looks in this light to an eye adapted to it by `degree` (CAT16).
    pub fn seen(&self, xyz: [f64; 3], degree: f64) -> [f64; 3] {
        let [cones, from, to] = [xyz, self.white(), SCREEN].map(|xyz| times(&CAT16, xyz));
        let adapted = [0, 1, 2].map(|k| cones[k] * (degree * to[k] / from[k] + 1.0 - degree));
        times(&TO_LINEAR, times(&inverse(&CAT16), adapted))
    }
}

/// Linear sRGB as L*a*b*.
pub fn lab(color: [f64; 3]) -> Lab {
    to_lab(color.map(|channel| channel as f32))
}

/// How far the bands with these weights are off for a stack in a light, CIEDE2000.
pub fn apart(light: &Light, stack: &Stack, weights: &[Spectrum; 3]) -> f64 {
    let bands = stack.shows(&WAVELENGTHS.map(f64::from));
    let bands = std::array::from_fn(|band| bands[band] as f32);
    let summed = light.seen(light.summed(&stack.shows(&light.nms)), 1.0);
    de2000(to_lab(weighed(weights, &bands)), lab(summed))
}

fn times(m: &Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

/// By cofactors.
fn inverse(m: &Matrix) -> Matrix {
    let minor = |i: usize, j: usize| {
        let (a, b, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
        m[a][c] * m[b][d] - m[a][d] * m[b][c]
    };
    let whole: f64 = (0..3).map(|j| m[0][j] * minor(0, j)).sum();
    std::array::from_fn(|i| std::array::from_fn(|j| minor(j, i) / whole))
}
