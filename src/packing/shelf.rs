//! Where discs lie.

use crate::base::data::data;
use crate::base::units::Mm;
use serde::{Deserialize, Serialize};

data! {
    /// A kiln shelf, or another level place of that form.
    #[derive(Copy)]
    pub enum Shelf {
        /// A disc.
        Round {
            /// Its diameter.
            across: Mm,
        },
        /// A rectangle.
        Square {
            /// From left to right.
            wide: Mm,
            /// From front to back.
            deep: Mm,
        },
    }
}

impl Shelf {
    /// Its narrowest width.
    pub fn narrowest(self) -> Mm {
        match self {
            Self::Round { across } => across,
            Self::Square { wide, deep } => Mm(wide.0.min(deep.0)),
        }
    }
}
