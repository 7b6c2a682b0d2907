//! A glass that is being made of its fired tiles. It stays as it is while the maker is elsewhere.

use dappledome::base::notice::Notice;
use dappledome::base::units::Mm;
use dappledome::color::typed;
use dappledome::glass::kind::{DENSITY, Glass};
use dappledome::glass::tile::{Over, Sifted, Tile};
use dappledome::recipe::limits::PACKING;
use dappledome::tiles::fit::{Fitted, fit};
use dappledome::tiles::tile::{Bases, Powder};
use leptos::prelude::*;

/// Most tiles that a glass is made of here.
pub const MOST_TILES: usize = 12;

/// A tile as it is written down.
#[derive(Clone, Debug, PartialEq)]
pub struct TileDraft {
    /// How much was sifted.
    pub sifted: Sifted,
    /// What it lies on.
    pub over: Over,
    /// Its color as it was typed; empty before it was.
    pub color: String,
}

impl TileDraft {
    /// A tile over white, not yet read.
    pub fn of(depth: f64) -> Self {
        Self { sifted: Sifted::Loose(Mm(depth)), over: Over::White, color: String::new() }
    }

    /// As the fit takes it; none without a color.
    fn tile(&self) -> Option<Tile> {
        let color = typed::read(&self.color).ok()?.lab();
        Some(Tile { sifted: self.sifted, over: self.over, color, spread: None })
    }
}

/// What is written down of a glass and its tiles.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// What it is to be called.
    pub name: String,
    /// The tiles.
    pub tiles: Vec<TileDraft>,
    /// The bare bases.
    pub bases: Bases,
    /// What the jar's powder is like.
    pub powder: Powder,
}

impl Default for Draft {
    fn default() -> Self {
        Self {
            name: String::new(),
            tiles: vec![TileDraft::of(0.15), TileDraft::of(0.45)],
            bases: Bases::default(),
            powder: Powder { packing: PACKING.usual, density: DENSITY, milkiness: 0.0 },
        }
    }
}

impl Draft {
    /// The tiles that have a color, and their places.
    pub fn read(&self) -> Vec<(usize, Tile)> {
        self.tiles.iter().enumerate().filter_map(|(at, tile)| Some((at, tile.tile()?))).collect()
    }

    /// The glass that fits them; none while no tile has a color.
    pub fn fitted(&self) -> Option<Result<Fitted, Notice>> {
        let tiles: Vec<Tile> = self.read().into_iter().map(|(_, tile)| tile).collect();
        (!tiles.is_empty()).then(|| fit(&tiles, &self.bases, &self.powder))
    }

    /// The glass as it goes onto the shelf.
    pub fn glass(&self, id: &str, fitted: &Fitted) -> Glass {
        let tiles = self.read().into_iter().map(|(_, tile)| tile).collect();
        let packing = (self.powder.packing != PACKING.usual).then_some(self.powder.packing);
        fitted.glass(id, &self.name, tiles, (self.powder.density, packing))
    }
}

/// The glass that is being made, as it is written down.
#[derive(Clone, Copy)]
pub struct TileDesk(pub RwSignal<Draft>);

impl TileDesk {
    /// Nothing written down yet.
    pub fn new() -> Self {
        Self(RwSignal::new(Draft::default()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::color::difference::de2000;
    use dappledome::color::difference::to_lab;
    use dappledome::color::srgb::decode;
    use dappledome::glass::kind::Source;
    use dappledome::tiles::ladder::{Base, ladder};

    #[test]
    fn nothing_is_fitted_before_a_color_is_read_and_one_tile_is_enough() {
        let mut draft = Draft::default();
        assert!(draft.fitted().is_none());
        draft.tiles[1].color = "no color".into();
        assert!(draft.fitted().is_none());
        draft.tiles[1].color = "#A05000".into();
        let fitted = draft.fitted().unwrap().unwrap();
        assert!(fitted.apart[0] < 0.5, "{:?}", fitted.apart);
        draft.name = " Rust, May ".into();
        let glass = draft.glass("of_may", &fitted);
        assert_eq!((glass.name.as_str(), glass.powder, glass.packing), ("Rust, May", true, None));
        assert!(
            matches!(&glass.source, Source::Tiles(tiles) if de2000(tiles[0].color, draft.read()[0].1.color) == 0.0)
        );
    }
    /// At a tile's own depth the ladder shows the tile, however closely its powder packs.
    #[test]
    fn the_packing_that_was_typed_comes_along() {
        let mut draft = Draft::default();
        draft.powder.packing = 0.58;
        draft.tiles[1].color = "#A05000".into();
        let fitted = draft.fitted().unwrap().unwrap();
        let glass = draft.glass("of_may", &fitted);
        assert_eq!(glass.packing, Some(0.58));
        let (_, tile) = &draft.read()[0];
        let depth = tile.sifted.loose(&draft.powder) as f32;
        let shown = ladder(&glass, PACKING.usual as f32, Base::White, &[depth])[0];
        assert!(de2000(to_lab(decode(shown)), tile.color) < 0.7, "{shown:?}");
    }
}
