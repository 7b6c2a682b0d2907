//! What a picture looks like to an eye that lacks one of its three kinds of cones. It shows which colors such an eye confuses, not what it is
//! like to be one.

use super::srgb::{Linear, decode, encode};
use serde::{Deserialize, Serialize};

/// Who looks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sight {
    /// All three kinds of cones.
    #[default]
    Usual,
    /// Without those for long waves.
    Protan,
    /// Without those for middle waves.
    Deutan,
    /// Without those for short waves.
    Tritan,
}

type Matrix = [Linear; 3];

/// Viénot, Brettel & Mollon 1999, Color Res. Appl. 24, 243: their cones and planes, brought to linear sRGB.
const PROTAN: Matrix = [[0.11238, 0.88762, 0.0], [0.11238, 0.88762, 0.0], [0.00401, -0.00401, 1.0]];
const DEUTAN: Matrix = [[0.29275, 0.70725, 0.0], [0.29275, 0.70725, 0.0], [-0.02234, 0.02234, 1.0]];
/// Brettel, Viénot & Mollon 1997, J. Opt. Soc. Am. A 14, 2647: the half plane through white and 660 nm and that through white and 485 nm, in
/// the cones of Smith & Pokorny 1975, brought to linear sRGB; and the normal of the plane between the two halves.
const TRITAN: [Matrix; 2] = [
    [[1.01277, 0.13548, -0.14826], [-0.01243, 0.86812, 0.14431], [0.07589, 0.80500, 0.11911]],
    [[0.93678, 0.18979, -0.12657], [0.06154, 0.81526, 0.12320], [-0.37562, 1.12767, 0.24796]],
];
const BETWEEN: Linear = [0.03960, -0.02831, -0.01129];

impl Sight {
    /// All there are.
    pub const ALL: [Self; 4] = [Self::Usual, Self::Protan, Self::Deutan, Self::Tritan];

    /// What this sight makes of a color, linear sRGB: those that it confuses become one.
    pub fn sees(self, color: Linear) -> Linear {
        match self {
            Self::Usual => color,
            Self::Protan => times(&PROTAN, color),
            Self::Deutan => times(&DEUTAN, color),
            Self::Tritan => times(&TRITAN[usize::from(dot(BETWEEN, color) < 0.0)], color),
        }
    }

    /// A whole picture, four bytes a pixel, in place.
    pub fn look_at(self, rgba: &mut [u8]) {
        if self == Self::Usual {
            return;
        }
        // Most of a picture is its ground: a pixel like the one before it is not worked out again.
        let (mut last, mut seen) = ([0; 3], [0; 3]);
        for pixel in rgba.chunks_exact_mut(4) {
            let color = [pixel[0], pixel[1], pixel[2]];
            if color != last {
                (last, seen) = (color, encode(self.sees(decode(color))));
            }
            pixel[..3].copy_from_slice(&seen);
        }
    }
}

fn times(matrix: &Matrix, color: Linear) -> Linear {
    matrix.map(|row| dot(row, color))
}

fn dot(a: Linear, b: Linear) -> f32 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
