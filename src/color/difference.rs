//! How different two colors look: CIE 1976 L*a*b* and CIEDE2000.

use super::srgb::Linear;
use crate::base::scalar::{atan2, cbrt, exp, pow, sin_cos};

/// CIE L*a*b* under D65.
pub type Lab = [f64; 3];

/// White of sRGB, XYZ from chromaticity x .3127, y .3290 (IEC 61966-2-1).
const WHITE: [f64; 3] = [0.950_455_9, 1.0, 1.089_057_8];

/// Linear sRGB to XYZ with Y of white = 1 (IEC 61966-2-1, primaries of ITU-R BT.709).
pub fn to_xyz(color: Linear) -> [f64; 3] {
    let [r, g, b] = color.map(f64::from);
    [
        0.412_390_8 * r + 0.357_584_34 * g + 0.180_480_79 * b,
        0.212_639_01 * r + 0.715_168_68 * g + 0.072_192_32 * b,
        0.019_330_82 * r + 0.119_194_78 * g + 0.950_532_15 * b,
    ]
}

/// Linear sRGB to L*a*b* (CIE 15).
pub fn to_lab(color: Linear) -> Lab {
    let xyz = to_xyz(color);
    let f = |i: usize| {
        let t = xyz[i] / WHITE[i];
        if t > 216.0 / 24389.0 { cbrt(t) } else { (24389.0 / 27.0 * t + 16.0) / 116.0 }
    };
    let (x, y, z) = (f(0), f(1), f(2));
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// L*a*b* to linear sRGB (CIE 15 and IEC 61966-2-1, backward); what sRGB cannot hold leaves 0 to 1.
pub fn from_lab([l, a, b]: Lab) -> Linear {
    let y = (l + 16.0) / 116.0;
    let f = [y + a / 500.0, y, y - b / 200.0];
    let [x, y, z] = [0, 1, 2].map(|i| {
        let cube = f[i] * f[i] * f[i];
        WHITE[i] * if cube > 216.0 / 24389.0 { cube } else { (116.0 * f[i] - 16.0) * 27.0 / 24389.0 }
    });
    [
        3.240_969_94 * x - 1.537_383_18 * y - 0.498_610_76 * z,
        -0.969_243_64 * x + 1.875_967_50 * y + 0.041_555_06 * z,
        0.055_630_08 * x - 0.203_976_96 * y + 1.056_971_51 * z,
    ]
    .map(|channel| channel as f32)
}

/// CIE 1976 difference.
pub fn de76(one: Lab, other: Lab) -> f64 {
    (0..3).map(|i| (one[i] - other[i]) * (one[i] - other[i])).sum::<f64>().sqrt()
}

/// CIEDE2000 difference, with all weights 1 (Sharma, Wu & Dalal 2005, Color Res. Appl. 30, 21; their equations
/// are numbered in the comments).
pub fn de2000(one: Lab, other: Lab) -> f64 {
    let seventh = |c: f64| {
        let c7 = pow(c, 7.0);
        (c7 / (c7 + 6_103_515_625.0)).sqrt()
    };
    let chroma = |lab: Lab| (lab[1] * lab[1] + lab[2] * lab[2]).sqrt();
    let g = 0.5 * (1.0 - seventh((chroma(one) + chroma(other)) / 2.0)); // (4)
    let polar = |lab: Lab| {
        let a = (1.0 + g) * lab[1]; // (5)
        let hue =
            if a == 0.0 && lab[2] == 0.0 { 0.0 } else { atan2(lab[2], a).to_degrees().rem_euclid(360.0) };
        ((a * a + lab[2] * lab[2]).sqrt(), hue) // (6) (7)
    };
    let ((c1, h1), (c2, h2)) = (polar(one), polar(other));
    let dc = c2 - c1; // (9)
    let gray = c1 * c2 == 0.0;
    let turn = match h2 - h1 {
        _ if gray => 0.0,
        d if d > 180.0 => d - 360.0,
        d if d < -180.0 => d + 360.0,
        d => d,
    }; // (10)
    let dh = 2.0 * (c1 * c2).sqrt() * sin_cos((turn / 2.0).to_radians()).0; // (11)
    let c = (c1 + c2) / 2.0; // (13)
    let h = if gray {
        h1 + h2
    } else if (h1 - h2).abs() <= 180.0 {
        (h1 + h2) / 2.0
    } else if h1 + h2 < 360.0 {
        (h1 + h2 + 360.0) / 2.0
    } else {
        (h1 + h2 - 360.0) / 2.0
    }; // (14)
    let cosine = |degrees: f64| sin_cos(degrees.to_radians()).1;
    let t = 1.0 - 0.17 * cosine(h - 30.0) + 0.24 * cosine(2.0 * h) + 0.32 * cosine(3.0 * h + 6.0)
        - 0.20 * cosine(4.0 * h - 63.0); // (15)
    let bell = (h - 275.0) / 25.0;
    let dtheta = 30.0 * exp(-bell * bell); // (16)
    let sc = 1.0 + 0.045 * c; // (19)
    let sh = 1.0 + 0.015 * c * t; // (20)
    let rt = -sin_cos((2.0 * dtheta).to_radians()).0 * 2.0 * seventh(c); // (17) (21)
    let (l, c, h) = (lightness(one, other), dc / sc, dh / sh);
    (l * l + c * c + h * h + rt * c * h).sqrt() // (22)
}

/// The part of lightness in it.
fn lightness(one: Lab, other: Lab) -> f64 {
    let l = (one[0] + other[0]) / 2.0; // (12)
    let off = (l - 50.0) * (l - 50.0);
    let sl = 1.0 + 0.015 * off / (20.0 + off).sqrt(); // (18)
    (other[0] - one[0]) / sl // (8)
}

/// The difference, if it is less than `most`. Where it is not, lightness alone often tells: what (22) adds to its square is never
/// negative, because the size of (21) is never above 2.
pub fn de2000_below(one: Lab, other: Lab, most: f64) -> Option<f64> {
    if lightness(one, other).abs() >= most {
        return None;
    }
    let apart = de2000(one, other);
    (apart < most).then_some(apart)
}
