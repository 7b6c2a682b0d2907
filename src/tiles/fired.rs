//! A fired tile as a fit sees it: painted by the very code that paints pieces.

use super::tile::{Bases, Over, Powder, Tile};
use crate::color::difference::{Lab, to_lab};
use crate::color::spectrum::to_linear;
use crate::glass::material::Material;
use crate::optics::layer::Layer;
use crate::optics::stack::Seen;

/// A tile as the fit sees it.
#[derive(Clone)]
pub struct Fired {
    /// Thickness of the fired glass, mm.
    pub thickness: f64,
    /// What it lies on.
    pub over: Over,
    /// What was read.
    pub color: Lab,
    base: Seen,
}

impl Fired {
    /// A tile on its base.
    pub fn new(tile: &Tile, bases: &Bases, powder: &Powder) -> Self {
        let base = bases.under(tile.over);
        Self { thickness: tile.thickness(powder), over: tile.over, color: tile.color, base }
    }

    /// A tile on any opaque ground.
    pub fn on(ground: Seen, thickness: f64, color: Lab) -> Self {
        Self { thickness, over: Over::White, color, base: ground }
    }

    /// The color that a tile of this glass would have.
    pub fn predicted(&self, material: &Material) -> Lab {
        let (mut seen, layer) = (self.base, Layer::of(material, self.thickness));
        seen.lay((&layer, &layer, 0.0), material.scatters());
        to_lab(to_linear(&seen.shows()))
    }
}
