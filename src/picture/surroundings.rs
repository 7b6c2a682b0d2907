//! What a dome stands in: the studio, a lawn, or high against the sky. The light stays the studio's; what lies behind the piece, shows through
//! it, and lights and is mirrored by its flanks from below has its own color.

use super::studio::{TABLE, WHITE};
use crate::color::srgb::{Linear, decode};
use serde::{Deserialize, Serialize};

/// What a dome stands in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Surroundings {
    /// On the gray table.
    #[default]
    Studio,
    /// On the green of a lawn.
    Lawn,
    /// On its stem over a lawn, with blue sky behind it.
    Sky,
}

/// Foliage and blue sky as sRGB: the natural objects of McCamy, Marcus & Davidson 1976, J. Appl. Photogr. Eng. 2, 95 (codes from memory).
const FOLIAGE: [u8; 3] = [87, 108, 67];
const BLUE_SKY: [u8; 3] = [98, 122, 157];

impl Surroundings {
    /// All there are.
    pub const ALL: [Self; 3] = [Self::Studio, Self::Lawn, Self::Sky];

    /// What lies behind the piece, next to a perfect white in the same light.
    pub fn behind(self) -> Linear {
        match self {
            Self::Studio => [TABLE; 3],
            Self::Lawn => decode(FOLIAGE),
            Self::Sky => decode(BLUE_SKY),
        }
    }

    /// What lies below it.
    pub fn below(self) -> Linear {
        match self {
            Self::Studio => [TABLE; 3],
            Self::Lawn | Self::Sky => decode(FOLIAGE),
        }
    }

    /// How much more of each color comes from below in full light than from the table.
    pub(super) fn tint(self) -> Linear {
        self.below().map(|channel| (channel - TABLE) * WHITE)
    }
}
