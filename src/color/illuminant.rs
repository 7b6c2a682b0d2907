//! What light colors are seen in: daylight, in which everything else is reckoned, and others through weights of their own for the same
//! sixteen bands.
//!
//! The weights are fitted (`examples/lamps`) to sums over the CIE 1931 observer every 5 nm and hold what an eye sees on a screen that is
//! wholly used to the light (CAT16, Li et al. 2017, degree of adaptation 1): white stays white, and the screen's own gray around it stays true.

use super::lamp_table::{INCANDESCENT, OVERCAST, WARM_WHITE};
use super::spectrum::{Spectrum, WEIGHTS};
use super::srgb::Linear;
use serde::{Deserialize, Serialize};

/// A light by its spectrum.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Illuminant {
    /// CIE D65.
    #[default]
    Daylight,
    /// CIE D75: the daylight phase of 7500 K, as an overcast northern sky.
    Overcast,
    /// CIE A: an incandescent lamp, Planck's radiator of 2856 K.
    Incandescent,
    /// Planck's radiator of 3000 K, what warm white lamps imitate.
    WarmWhite,
}

/// What the incandescent and the warm white lamp look like in the dusk beside daylight, to an eye that is partly used to them: 0.74 by CAT16's
/// own formula for a dim surround and 2 cd/m² (`examples/lamps`); the brightest channel is 1.
const LAMPS: (Linear, Linear) = ([1.0, 0.786, 0.662], [1.0, 0.802, 0.680]);

impl Illuminant {
    /// All there are.
    pub const ALL: [Self; 4] = [Self::Daylight, Self::Overcast, Self::Incandescent, Self::WarmWhite];

    /// Weight of each band in linear red, green and blue; each row adds up to 1.
    pub fn weights(self) -> &'static [Spectrum; 3] {
        match self {
            Self::Daylight => &WEIGHTS,
            Self::Overcast => &OVERCAST,
            Self::Incandescent => &INCANDESCENT,
            Self::WarmWhite => &WARM_WHITE,
        }
    }

    /// The color of a lamp of this light in the dusk; none where no lamp has it.
    pub fn lamp(self) -> Option<Linear> {
        match self {
            Self::Daylight | Self::Overcast => None,
            Self::Incandescent => Some(LAMPS.0),
            Self::WarmWhite => Some(LAMPS.1),
        }
    }
}
