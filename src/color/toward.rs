//! In which direction one color lies from another.

use super::difference::Lab;
use serde::{Deserialize, Serialize};

/// A direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Toward {
    /// More L*.
    Lighter,
    /// Less L*.
    Darker,
    /// More chroma.
    Stronger,
    /// Less chroma.
    Grayer,
    /// Another hue, toward +a*.
    Redder,
    /// Another hue, toward -a*.
    Greener,
    /// Another hue, toward +b*.
    Yellower,
    /// Another hue, toward -b*.
    Bluer,
}

impl Toward {
    /// In a word: the color is so beside the other one.
    pub fn word(self) -> &'static str {
        match self {
            Self::Lighter => "lighter",
            Self::Darker => "darker",
            Self::Stronger => "stronger",
            Self::Grayer => "grayer",
            Self::Redder => "redder",
            Self::Greener => "greener",
            Self::Yellower => "yellower",
            Self::Bluer => "bluer",
        }
    }
}

/// How much a color is off from another one, told apart by the three things an eye does, each in the unit of a CIEDE2000
/// difference (weighed by S_L, S_C and S_H alike, without the blue's rotation).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Off {
    /// Lighter (or darker, if negative) by this.
    pub lightness: f64,
    /// Stronger (or grayer) by this.
    pub chroma: f64,
    /// Turned in hue by this, never negative.
    pub hue: f64,
    /// Where to the hue turns; none if it does not.
    pub hue_toward: Option<Toward>,
}

impl Off {
    /// How much `color` is off from `wanted`.
    pub fn new(color: Lab, wanted: Lab) -> Self {
        let chroma = |lab: Lab| (lab[1] * lab[1] + lab[2] * lab[2]).sqrt();
        let (of_color, of_wanted) = (chroma(color), chroma(wanted));
        let [dl, da, db] = [0, 1, 2].map(|i| color[i] - wanted[i]);
        let dc = of_color - of_wanted;
        let dh = (da * da + db * db - dc * dc).max(0.0).sqrt();
        let (l, c) = (0.5 * (color[0] + wanted[0]), 0.5 * (of_color + of_wanted));
        let off = (l - 50.0) * (l - 50.0);
        let hue = dh / (1.0 + 0.015 * c);
        Self {
            lightness: dl / (1.0 + 0.015 * off / (20.0 + off).sqrt()),
            chroma: dc / (1.0 + 0.045 * c),
            hue,
            hue_toward: (hue > 1e-6).then(|| turned(color, wanted, of_color, of_wanted)),
        }
    }

    /// The directions worth naming, the largest first: the largest of all, and what is at least half of it.
    pub fn toward(&self) -> Vec<Toward> {
        let lightness = if self.lightness > 0.0 { Toward::Lighter } else { Toward::Darker };
        let chroma = if self.chroma > 0.0 { Toward::Stronger } else { Toward::Grayer };
        let mut parts = vec![(self.lightness.abs(), lightness), (self.chroma.abs(), chroma)];
        parts.extend(self.hue_toward.map(|toward| (self.hue, toward)));
        parts.sort_by(|one, other| other.0.total_cmp(&one.0));
        let largest = parts[0].0;
        parts.retain(|part| part.0 > 1e-6 && part.0 >= 0.5 * largest);
        parts.into_iter().map(|(_, toward)| toward).collect()
    }
}

/// Where to a hue turns: along a* or b*, whichever of the two turns more at equal chroma.
fn turned(color: Lab, wanted: Lab, of_color: f64, of_wanted: f64) -> Toward {
    let unit = |lab: Lab, chroma: f64, i: usize| if chroma > 0.0 { lab[i] / chroma } else { 0.0 };
    let [da, db] = [1, 2].map(|i| unit(color, of_color, i) - unit(wanted, of_wanted, i));
    match (da.abs() >= db.abs(), da > 0.0, db > 0.0) {
        (true, true, _) => Toward::Redder,
        (true, false, _) => Toward::Greener,
        (false, _, true) => Toward::Yellower,
        (false, _, false) => Toward::Bluer,
    }
}

#[cfg(test)]
mod tests {
    use super::Toward::{Bluer, Darker, Grayer, Greener, Lighter, Redder, Stronger, Yellower};
    use super::*;

    /// By hand, from what L*, a* and b* mean.
    #[test]
    fn a_direction_is_what_the_coordinates_say() {
        let brown = [46.0, 22.0, 21.0];
        for (color, toward) in [
            ([56.0, 22.0, 21.0], vec![Lighter]),
            ([40.0, 22.0, 21.0], vec![Darker]),
            ([46.0, 33.0, 31.5], vec![Stronger]),
            ([46.0, 11.0, 10.5], vec![Grayer]),
            ([46.0, 30.0, 5.0], vec![Bluer]),
            ([46.0, 5.0, 30.0], vec![Greener]),
            // Chroma 15.2 over S_C 2.71 is 5.6, L* 6 over S_L 1.09 is 5.5.
            ([40.0, 33.0, 31.5], vec![Stronger, Darker]),
            (brown, vec![]),
        ] {
            assert_eq!(Off::new(color, brown).toward(), toward, "{color:?}");
        }
        assert_eq!(Off::new([46.0, 8.0, 30.0], [46.0, -8.0, 30.0]).toward(), [Redder]);
        assert_eq!(Off::new([46.0, 30.0, 8.0], [46.0, 30.0, -8.0]).toward(), [Yellower]);
        assert_eq!(Off::new([50.0, 0.0, 0.0], [50.0, 0.0, 0.0]).hue_toward, None, "gray has no hue");
    }

    /// The three parts of a small difference add up, squared, to CIEDE2000's square where its hue terms are near 1.
    #[test]
    fn its_parts_are_in_the_unit_of_the_difference() {
        let (one, other) = ([60.0, 0.0, 0.0], [64.0, 0.0, 0.0]);
        let off = Off::new(other, one);
        assert!((off.lightness - crate::color::difference::de2000(one, other)).abs() < 1e-9, "{off:?}");
    }
}
