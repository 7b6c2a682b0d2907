//! What is looked at and how: the stage of making, the light, the turn of the piece and the size of the picture.

use super::surroundings::Surroundings;
use crate::color::dichromacy::Sight;
use crate::color::illuminant::Illuminant;
use crate::tiles::sureness::By;
use serde::{Deserialize, Serialize};

/// A stage of making.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Loose powder on the blank, dabbed and dry.
    Sifted,
    /// After the full fuse (and the tack fuse of the accents): one flat disc.
    Fused,
    /// After the slump: the finished dome.
    Domed,
}

/// The light it is seen by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Light {
    /// By day on neutral gray, with gloss and shadow.
    Day,
    /// Lit from within, in the dusk.
    Within,
    /// Flat color on plain gray, without gloss or shadow, for judging color.
    Gray,
}

impl Light {
    /// How surely colors are known by it.
    pub fn judged_by(self) -> By {
        match self {
            Self::Within => By::Lit,
            Self::Day | Self::Gray => By::Day,
        }
    }
}

/// One picture, asked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct View {
    /// The stage of making.
    pub stage: Stage,
    /// The light.
    pub light: Light,
    /// Width and height of the picture, pixels.
    pub size: u32,
    /// Cells of the layout across the disc.
    pub cells: u32,
    /// Turn of the piece about its axis, degrees, counterclockwise seen from above.
    pub turn: f32,
    /// How high the eye stands above the horizon for a dome, degrees, [`View::LEAST_TILT`] to [`View::MOST_TILT`].
    pub tilt: f32,
    /// How near: 1 shows the whole piece.
    pub zoom: f32,
    /// How far a dome has sunk: minutes since the top of its slump was reached, below zero on the way up; none is as the recipe ends.
    #[serde(default)]
    pub sunk: Option<f32>,
    /// The spectrum of the light: of day, or of the lamp within.
    #[serde(default)]
    pub seen_in: Illuminant,
    /// Who looks at it.
    #[serde(default)]
    pub sight: Sight,
    /// What a dome stands in.
    #[serde(default)]
    pub around: Surroundings,
    /// Whether it is shaded by how sure its fired colors are, instead of shown in them.
    #[serde(default)]
    pub by_sureness: bool,
}

impl View {
    /// The lowest the eye may stand, degrees.
    pub const LEAST_TILT: f32 = 8.0;
    /// The highest the eye may stand, degrees.
    pub const MOST_TILT: f32 = 88.0;
    /// The usual height of the eye, degrees.
    pub const USUAL_TILT: f32 = 33.0;
    /// Cells of a draft.
    pub const DRAFT_CELLS: u32 = 192;
    /// Cells of a quick picture: just fine enough that three samples a side do for the sponge, which needs four in 112.
    const QUICK_CELLS: u32 = 128;
    /// Cells of a fine picture.
    pub const FINE_CELLS: u32 = 512;
    /// Most pixels along a side.
    pub const MOST_SIZE: u32 = 4096;
    /// Most cells along a side: on the usual disc they are then as fine as one grain of powder.
    pub const MOST_CELLS: u32 = 2048;

    /// The usual view of a stage: the whole piece, unturned, with as many cells as pixels as far as that says more.
    pub fn usual(stage: Stage, light: Light, size: u32) -> Self {
        Self {
            stage,
            light,
            size,
            cells: size.min(Self::MOST_CELLS),
            turn: 0.0,
            tilt: Self::USUAL_TILT,
            zoom: 1.0,
            sunk: None,
            seen_in: Illuminant::Daylight,
            sight: Sight::Usual,
            around: Surroundings::Studio,
            by_sureness: false,
        }
    }

    /// The light that its colors are made for: no sky lights a piece from within, there it is the usual lamp.
    pub fn illuminant(&self) -> Illuminant {
        match (self.light, self.seen_in.lamp()) {
            (Light::Within, None) => Illuminant::Daylight,
            _ => self.seen_in,
        }
    }

    /// The same in a hurry, a third as sharp: what is shown first after a change, for a tenth of a second.
    #[must_use]
    pub fn quick(self) -> Self {
        Self { size: (self.size / 3).max(64), cells: Self::QUICK_CELLS, ..self }
    }
}
