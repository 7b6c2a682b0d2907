//! How far colors are from a wanted one, quickly: CIEDE2000 with what it takes of the mean hue taken at the wanted color's, so that a
//! comparison takes no trigonometry. Exact in the small; for ranking only.

use crate::base::scalar::{atan2, exp, pow, sin_cos};
use crate::color::difference::Lab;

/// The measure about one color.
pub struct Quick {
    color: Lab,
    /// The same with a* stretched.
    wanted: Lab,
    /// a* is stretched by this.
    stretch: f64,
    chroma: f64,
    /// T of the weight of hue.
    t: f64,
    rotation: f64,
}

impl Quick {
    /// About this color; equations as in [`crate::color::difference::de2000`].
    pub fn new(color: Lab) -> Self {
        let [l, a, b] = color;
        let seventh = |c: f64| {
            let c7 = pow(c, 7.0);
            (c7 / (c7 + 6_103_515_625.0)).sqrt()
        };
        let stretch = 1.0 + 0.5 * (1.0 - seventh((a * a + b * b).sqrt()));
        let a = stretch * a;
        let chroma = (a * a + b * b).sqrt();
        let hue = if chroma > 0.0 { atan2(b, a).to_degrees().rem_euclid(360.0) } else { 0.0 };
        let cosine = |degrees: f64| sin_cos(degrees.to_radians()).1;
        let t = 1.0 - 0.17 * cosine(hue - 30.0) + 0.24 * cosine(2.0 * hue) + 0.32 * cosine(3.0 * hue + 6.0)
            - 0.20 * cosine(4.0 * hue - 63.0);
        let bell = (hue - 275.0) / 25.0;
        Self {
            color,
            wanted: [l, a, b],
            stretch,
            chroma,
            t,
            rotation: -2.0 * seventh(chroma) * sin_cos((60.0 * exp(-bell * bell)).to_radians()).0,
        }
    }

    /// The color itself.
    pub fn wanted(&self) -> Lab {
        self.color
    }

    /// How far a color is off.
    pub fn off(&self, [l, a, b]: Lab) -> f64 {
        let a = a * self.stretch;
        let [wanted_l, wanted_a, wanted_b] = self.wanted;
        let chroma = (a * a + b * b).sqrt();
        let dc = chroma - self.chroma;
        let (da, db) = (a - wanted_a, b - wanted_b);
        let turn = (da * da + db * db - dc * dc).max(0.0).sqrt();
        let turn = if wanted_a * b >= wanted_b * a { turn } else { -turn };
        let (mean_l, mean_c) = (0.5 * (l + wanted_l), 0.5 * (chroma + self.chroma));
        let from_gray = (mean_l - 50.0) * (mean_l - 50.0);
        let l = (l - wanted_l) / (1.0 + 0.015 * from_gray / (20.0 + from_gray).sqrt());
        let (c, h) = (dc / (1.0 + 0.045 * mean_c), turn / (1.0 + 0.015 * mean_c * self.t));
        (l * l + c * c + h * h + self.rotation * c * h).max(0.0).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::difference::de2000;

    /// Against CIEDE2000 itself in the small (2 % at differences of about 1).
    #[test]
    fn it_is_the_difference_in_the_small() {
        for wanted in [[50.0, 20.0, 30.0], [30.0, 5.0, -40.0], [70.0, -30.0, 5.0], [40.0, 60.0, 30.0]] {
            for by in [[0.5, 0.0, 0.0], [0.0, 0.4, 0.0], [0.0, 0.0, 0.4], [0.2, -0.3, 0.3], [-0.2, 0.3, 0.3]]
            {
                let near = [0, 1, 2].map(|i| wanted[i] + by[i]);
                let (quick, exact) = (Quick::new(wanted).off(near), de2000(wanted, near));
                assert!((quick / exact - 1.0).abs() < 0.02, "{wanted:?} by {by:?}: {quick}, not {exact}");
            }
        }
    }
}
