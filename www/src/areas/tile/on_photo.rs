//! What a photo shows where it is marked. Plain data.

use crate::model::photo::Mark;
use crate::state::tile_draft::{Draft, SeenColor};
use dappledome::base::notice::Notice;
use dappledome::photo::light::Light;
use dappledome::photo::reading::{Reading, read};

/// The light on a photo, and the color of each tile in it.
#[derive(Clone, Debug, PartialEq)]
pub struct OnPhoto {
    /// By which share it falls off over all that is marked; or why the white tells nothing.
    pub light: Result<f64, Notice>,
    /// Each tile, or why it tells nothing; none without light.
    pub tiles: Vec<Option<Result<Reading, Notice>>>,
}

impl OnPhoto {
    /// What the photo of a draft shows; none without a photo.
    pub fn of(draft: &Draft) -> Option<Self> {
        let pixels = draft.photo.as_ref()?.photo.pixels()?;
        let marks = draft.marks();
        let (white, tiles) = marks.split_first()?;
        Some(match Light::on(&pixels, &white.frame) {
            Err(notice) => Self { light: Err(notice), tiles: vec![None; tiles.len()] },
            Ok(light) => {
                let frames: Vec<_> = marks.iter().map(|mark| mark.frame).collect();
                let reading = |mark: &Mark| {
                    Some(read(&pixels, (mark.name.as_str(), &mark.frame), &light, draft.photo_white))
                };
                Self { light: Ok(light.falls_off(&frames)), tiles: tiles.iter().map(reading).collect() }
            }
        })
    }

    /// The colors that were read, tile by tile.
    pub fn colors(&self) -> Vec<Option<SeenColor>> {
        let color = |reading: &Reading| (reading.color, Some(reading.spread));
        self.tiles.iter().map(|tile| tile.as_ref()?.as_ref().ok().map(color)).collect()
    }

    /// Whether a little of some tile is clipped.
    pub fn clipped(&self) -> bool {
        self.tiles.iter().flatten().flatten().any(|reading| reading.clipped > 0.0)
    }
}
