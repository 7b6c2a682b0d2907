//! Why a marked place tells no color.

use super::shadow::Shadow;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::text::capital;

/// Fewer pixels than this tell no color.
pub const FEWEST: usize = 48;

/// Too few pixels.
pub fn too_small(whose: &str) -> Notice {
    fault(
        format!("{} is too small to read.", capital(whose)),
        format!("A color takes {FEWEST} pixels or more."),
        "Mark more of it, or take the photo from nearer.",
    )
}

/// Pixels as bright as they go.
pub fn clipped(whose: &str) -> Notice {
    fault(
        format!("{} is clipped: too bright to tell.", capital(whose)),
        "The camera shows no more than all, however much light there was.",
        "Take the photo with less exposure, or mark where nothing glares.",
    )
}

/// A white that is hardly lit.
pub fn too_dark() -> Notice {
    fault(
        "White is too dark to tell.",
        "So little light shows the camera's noise, not the color of the light.",
        "Mark the white again, or take the photo in more light.",
    )
}

/// A white that is lit unevenly.
pub fn in_shadow(Shadow { darker, side }: Shadow) -> Notice {
    fault(
        format!("White lies in shadow: {:.0} % darker {side}.", 100.0 * darker),
        "A white that is lit unevenly does not tell the light on the tiles.",
        "Mark it again.",
    )
}

fn fault(what: impl Into<String>, why: impl Into<String>, remedy: &str) -> Notice {
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}
