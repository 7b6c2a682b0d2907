//! Spectra of the demo glasses, in the bands of [`crate::color::spectrum`].
//!
//! Demo data, not measurements and not any maker's glass: absorption bands of the usual coloring ions and colloids
//! at their published wavelengths, with strengths and widths chosen so that each hue is recognizable.

use crate::color::spectrum::Spectrum;

/// A demo colorant in clear glass at full strength.
#[derive(Debug)]
pub struct DemoGlass {
    /// Absorption per mm (natural logarithm), clear glass included.
    pub absorption: Spectrum,
    /// Back-scatter per mm (Kubelka-Munk S).
    pub scatter: Spectrum,
}

/// Clear.
pub const CLEAR: DemoGlass = DemoGlass {
    absorption: [
        0.00267, 0.00171, 0.00146, 0.00133, 0.00127, 0.00123, 0.00121, 0.0012, 0.0012, 0.0012, 0.0012,
        0.00121, 0.00122, 0.00123, 0.00127, 0.00135,
    ],
    scatter: [0.0; 16],
};
/// Straw.
pub const STRAW: DemoGlass = DemoGlass {
    absorption: [
        1.52303, 1.2115, 0.88069, 0.57026, 0.35601, 0.199, 0.09942, 0.05325, 0.02821, 0.01598, 0.01024,
        0.00703, 0.0045, 0.0029, 0.00196, 0.00156,
    ],
    scatter: [0.0; 16],
};
/// Rust.
pub const RUST: DemoGlass = DemoGlass {
    absorption: [
        2.76212, 2.74762, 2.44958, 2.00618, 1.58962, 1.14881, 0.74049, 0.50112, 0.3575, 0.28281, 0.24447,
        0.21988, 0.19528, 0.17186, 0.14563, 0.11441,
    ],
    scatter: [0.0; 16],
};
/// Umber.
pub const UMBER: DemoGlass = DemoGlass {
    absorption: [
        4.23896, 4.4476, 4.24617, 3.8525, 3.38765, 2.72939, 2.08127, 1.70041, 1.45636, 1.29124, 1.18158,
        1.10533, 1.03197, 0.9621, 0.87597, 0.81526,
    ],
    scatter: [0.0; 16],
};
/// Lagoon.
pub const LAGOON: DemoGlass = DemoGlass {
    absorption: [
        0.37351, 0.27015, 0.30592, 0.32387, 0.302, 0.22668, 0.15182, 0.18013, 0.23427, 0.32912, 0.50645,
        0.68521, 0.91059, 1.26778, 1.72149, 2.10893,
    ],
    scatter: [0.0; 16],
};
/// Shoal.
pub const SHOAL: DemoGlass = DemoGlass {
    absorption: [
        0.24783, 0.07806, 0.03654, 0.01843, 0.01022, 0.00555, 0.00694, 0.01841, 0.05139, 0.11354, 0.19421,
        0.29141, 0.45435, 0.69309, 1.05029, 1.52921,
    ],
    scatter: [0.0; 16],
};
/// Slate.
pub const SLATE: DemoGlass = DemoGlass {
    absorption: [
        0.11041, 0.22801, 0.33363, 0.3745, 0.3545, 0.2958, 0.31518, 0.49908, 0.62258, 0.67172, 0.7949,
        0.84835, 0.7769, 0.78084, 0.71386, 0.52113,
    ],
    scatter: [0.0; 16],
};
/// Coral.
pub const CORAL: DemoGlass = DemoGlass {
    absorption: [
        0.66349, 0.70628, 0.73716, 0.76429, 0.78455, 0.80011, 0.79265, 0.7594, 0.70204, 0.59634, 0.4013,
        0.22694, 0.12757, 0.08338, 0.05177, 0.02781,
    ],
    scatter: [0.0; 16],
};
/// Moss.
pub const MOSS: DemoGlass = DemoGlass {
    absorption: [
        1.40112, 1.36708, 1.60514, 1.69942, 1.56999, 1.12975, 0.53586, 0.20728, 0.08742, 0.11978, 0.2499,
        0.44995, 0.79652, 1.19849, 1.56742, 1.34803,
    ],
    scatter: [0.0; 16],
};
/// Heather.
pub const HEATHER: DemoGlass = DemoGlass {
    absorption: [
        0.20708, 0.29415, 0.41548, 0.54419, 0.65642, 0.7799, 0.89019, 0.99884, 0.98389, 0.92626, 0.97683,
        0.97889, 0.85655, 0.79733, 0.65709, 0.31693,
    ],
    scatter: [0.0; 16],
};
/// Chalk.
pub const CHALK: DemoGlass = DemoGlass {
    absorption: [
        0.00666, 0.00567, 0.00511, 0.00333, 0.00188, 0.00175, 0.00171, 0.00162, 0.0015, 0.0014, 0.00134,
        0.00131, 0.00128, 0.00127, 0.00128, 0.00136,
    ],
    scatter: [
        3.51781, 3.42895, 3.37332, 3.32402, 3.28038, 3.22139, 3.14958, 3.08533, 3.02206, 2.9678, 2.92643,
        2.89162, 2.84864, 2.80084, 2.74277, 2.67069,
    ],
};
