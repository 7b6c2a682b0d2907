//! Window glasses as they were measured: real sheet glass for those who kiln-form it, and a check of the model.
//!
//! M. Rubin 1985, Optical properties of soda lime silica glasses, Solar Energy Materials 12, 275-288, as tabulated in the
//! refractiveindex.info database (CC0 1.0): absorption per mm is 4 pi k / lambda, read between its wavelengths, and then moved by at
//! most 2 % so that sheets of 1 to 15 mm have the color of their whole spectrum, whose fine structure falls between the bands
//! (`tests/data/measured_sheet_glass.csv`; `tests/published/window_glass.rs` holds these numbers to it).

use crate::color::spectrum::Spectrum;

/// Where they are from.
pub const PUBLISHED: &str = "window glass, M. Rubin, Solar Energy Materials 12 (1985) 275";

/// Id, name and absorption per mm of each.
pub const WINDOW_GLASSES: [(&str, &str, Spectrum); 5] = [
    (
        "window_low_iron",
        "Window, low iron",
        [
            0.001436, 0.001645, 0.001596, 0.001247, 0.0009193, 0.001028, 0.0008086, 0.0009095, 0.001007,
            0.001433, 0.001782, 0.001983, 0.002343, 0.00315, 0.003791, 0.004756,
        ],
    ),
    (
        "window_clear",
        "Window, clear",
        [
            0.006434, 0.006869, 0.006907, 0.005684, 0.004595, 0.004476, 0.003779, 0.003824, 0.004705,
            0.005885, 0.00752, 0.008727, 0.01075, 0.01394, 0.01712, 0.02153,
        ],
    ),
    (
        "window_green",
        "Window, green",
        [
            0.03222, 0.0346, 0.03484, 0.02909, 0.02385, 0.02227, 0.02173, 0.02328, 0.02612, 0.03018, 0.03819,
            0.04408, 0.05168, 0.06176, 0.08098, 0.09319,
        ],
    ),
    (
        "window_bronze",
        "Window, bronze",
        [
            0.09669, 0.1082, 0.1156, 0.1181, 0.1191, 0.1205, 0.1188, 0.1102, 0.09295, 0.08036, 0.08375,
            0.08342, 0.08105, 0.08341, 0.08493, 0.07589,
        ],
    ),
    (
        "window_gray",
        "Window, gray",
        [
            0.07562, 0.1013, 0.1157, 0.1208, 0.1226, 0.124, 0.1323, 0.1383, 0.1215, 0.1112, 0.1303, 0.1373,
            0.1372, 0.1405, 0.1329, 0.08212,
        ],
    ),
];
