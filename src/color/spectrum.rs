//! The sixteen bands that light is computed in, and their way to linear sRGB.
//!
//! The bands' wavelengths and weights are a quadrature fitted to the CIE 1931 standard observer under D65, white
//! scaled to exactly (1, 1, 1). Against sums at 1 nm its colors differ by at most half a CIEDE2000 for glass without
//! narrow absorption lines.

use super::srgb::Linear;
use crate::base::lanes::{self, Four, LANES};

/// Number of bands.
pub const BANDS: usize = 16;

/// One value per band: an absorption per mm, a reflectance, a light.
pub type Spectrum = [f32; BANDS];

/// Parts of a spectrum, of four bands each.
pub const PARTS: usize = BANDS / LANES;

/// A spectrum by its parts, as loops hold it.
pub type Parts = [Four; PARTS];

/// Four neighboring bands of a spectrum.
#[inline]
pub fn part(spectrum: &Spectrum, part: usize) -> Four {
    Four::new(spectrum.as_chunks().0[part])
}

/// A spectrum from its parts.
#[inline]
pub fn from_parts(of: impl Fn(usize) -> Four) -> Spectrum {
    let mut spectrum = [0.0; BANDS];
    for (part, bands) in spectrum.as_chunks_mut().0.iter_mut().enumerate() {
        *bands = of(part).to_array();
    }
    spectrum
}

/// Wavelength of each band, nm.
pub const WAVELENGTHS: [u16; BANDS] =
    [400, 421, 435, 448, 460, 477, 499, 520, 542, 562, 578, 592, 610, 631, 658, 694];

/// Weight of each band in linear red, green and blue; each row adds up to 1.
pub const WEIGHTS: [Spectrum; 3] = [
    [
        0.00259592,
        0.01553997,
        0.02853393,
        0.02129309,
        0.00530949,
        -0.06361157,
        -0.12887523,
        -0.20229933,
        -0.09729336,
        0.08353465,
        0.19402001,
        0.29681365,
        0.41142955,
        0.30139946,
        0.11732726,
        0.01428249,
    ],
    [
        -0.00235116,
        -0.01353721,
        -0.02707735,
        -0.02493600,
        -0.01833111,
        0.03895512,
        0.12644749,
        0.27520229,
        0.32551357,
        0.21098955,
        0.10168086,
        0.04890862,
        -0.00476337,
        -0.02308652,
        -0.01210604,
        -0.00150874,
    ],
    [
        0.01328897,
        0.10708546,
        0.20922387,
        0.24703406,
        0.26419474,
        0.22073667,
        0.05281233,
        -0.01144553,
        -0.03524313,
        -0.02700381,
        -0.01717007,
        -0.01137937,
        -0.00795833,
        -0.00325808,
        -0.00077904,
        -0.00013875,
    ],
];

/// Linear sRGB of a spectrum seen by daylight.
pub fn to_linear(spectrum: &Spectrum) -> Linear {
    weighed(&WEIGHTS, spectrum)
}

/// Linear sRGB of a spectrum by the weights of a light.
#[inline]
pub fn weighed(rows: &[Spectrum; 3], spectrum: &Spectrum) -> Linear {
    rows.each_ref().map(|weights| {
        let products = (0..PARTS).map(|p| part(spectrum, p) * part(weights, p));
        lanes::sum(products.fold(Four::splat(0.0), |sum, product| sum + product))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A light in one band has that band's weights; white is (1, 1, 1).
    #[test]
    fn a_band_has_its_own_weight() {
        for band in 0..BANDS {
            let mut light = [0.0; BANDS];
            light[band] = 2.0;
            assert_eq!(to_linear(&light), [0, 1, 2].map(|channel| 2.0 * WEIGHTS[channel][band]), "{band}");
        }
        assert!(to_linear(&[1.0; BANDS]).iter().all(|c| (c - 1.0).abs() < 1e-6));
    }
}
