//! A glass that is being made of its fired tiles. It stays as it is while the maker is elsewhere.

use crate::model::photo::{Mark, Photo};
use crate::words;
use dappledome::base::notice::Notice;
use dappledome::base::units::{Mm, short};
use dappledome::color::difference::Lab;
use dappledome::color::typed;
use dappledome::glass::kind::{DENSITY, Glass, Source};
use dappledome::glass::tile::{Over, Sifted, Tile};
use dappledome::photo::frame::{Frame, Shape, Size};
use dappledome::recipe::limits::{PACKING, PHOTO_WHITE};
use dappledome::tiles::fit::{Fitted, fit};
use dappledome::tiles::next_tile::{NextTile, On};
use dappledome::tiles::sureness::Sureness;
use dappledome::tiles::tile::{Bases, Powder};
use leptos::prelude::*;
use std::sync::Arc;

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
    /// How far the pixels of a photo lay about that color, if it was read from one once; none if it was typed.
    spread: Option<f64>,
    /// Where it lies on the photo, if the maker has marked it.
    pub frame: Option<Frame>,
}

/// A color that was typed or read, and how far the pixels of a photo lie about it.
pub type SeenColor = (Lab, Option<f64>);

impl TileDraft {
    /// A tile over white, not yet read.
    pub fn of(depth: f64) -> Self {
        Self {
            sifted: Sifted::Loose(Mm(depth)),
            over: Over::White,
            color: String::new(),
            spread: None,
            frame: None,
        }
    }

    /// A tile that a glass was fitted from.
    fn fired(tile: &Tile) -> Self {
        let [l, a, b] = tile.color.map(|part| short(part, 2));
        let (color, spread) = (format!("Lab {l} {a} {b}"), tile.spread);
        Self { sifted: tile.sifted, over: tile.over, color, spread, frame: None }
    }

    /// Takes a color as it is typed.
    pub fn type_color(&mut self, text: String) {
        (self.color, self.spread) = (text, None);
    }

    /// The color that was typed; none if it is no color.
    fn typed(&self) -> Option<SeenColor> {
        Some((typed::read(&self.color).ok()?.lab(), self.spread))
    }
}

/// The photo that colors are taken from: the same only as itself.
#[derive(Clone, Debug)]
pub struct PhotoDraft {
    /// The photo.
    pub photo: Arc<Photo>,
    /// Where its white lies.
    pub white: Frame,
}

impl PartialEq for PhotoDraft {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.photo, &other.photo) && self.white == other.white
    }
}

impl PhotoDraft {
    /// A photo with its white marked where many lay it.
    pub fn new(photo: Photo) -> Self {
        let white = Frame::at(Shape::Rectangle, (0.5, 0.2), (0.24, 0.14), photo.size);
        Self { photo: Arc::new(photo), white }
    }
}

/// Where a tile is marked before the maker has said where it lies: four in a row under the white.
fn usual_frame(at: usize, photo: Size) -> Frame {
    let (column, row) = ((at % 4) as f64, (at / 4) as f64);
    Frame::at(Shape::Rectangle, (0.2 + 0.2 * column, 0.5 + 0.2 * row), (0.12, 0.12), photo)
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
    /// The photo, if colors are taken from one and not typed.
    pub photo: Option<PhotoDraft>,
    /// How bright the white in the photo is, of a perfect white.
    pub photo_white: f64,
}

impl Default for Draft {
    fn default() -> Self {
        Self {
            name: String::new(),
            tiles: vec![TileDraft::of(0.15), TileDraft::of(0.45)],
            bases: Bases::default(),
            powder: Powder { packing: PACKING.usual, density: DENSITY, milkiness: 0.0 },
            photo: None,
            photo_white: PHOTO_WHITE.usual,
        }
    }
}

impl Draft {
    /// A glass with the tiles that it was fitted from, and one more that is to be fired.
    pub fn one_more(glass: &Glass, next: NextTile) -> Self {
        let fired = if let Source::Tiles(tiles) = &glass.source { &tiles[..] } else { &[] };
        let milkiness = match Sureness::of(glass) {
            Sureness::Tiles(evidence) => evidence.milkiness(),
            // Made up: as cloudy as whoever made it up said.
            _ => glass.material.mean_scatter().into(),
        };
        let one = |over| TileDraft { over, ..TileDraft::of(next.depth.into()) };
        let next = match next.on {
            On::White => vec![one(Over::White)],
            On::Black => vec![one(Over::Black)],
            On::Both => vec![one(Over::White), one(Over::Black)],
        };
        Self {
            name: glass.name.clone(),
            tiles: fired.iter().map(TileDraft::fired).chain(next).collect(),
            powder: Powder {
                packing: glass.packing.unwrap_or(PACKING.usual),
                density: glass.density,
                milkiness,
            },
            ..Self::default()
        }
    }

    /// The colors that were typed, tile by tile.
    pub fn typed(&self) -> Vec<Option<SeenColor>> {
        self.tiles.iter().map(TileDraft::typed).collect()
    }

    /// The tiles that have one of these colors, and their places.
    pub fn seen(&self, colors: &[Option<SeenColor>]) -> Vec<(usize, Tile)> {
        let tile = |(at, (tile, color)): (usize, (&TileDraft, &Option<SeenColor>))| {
            let (color, spread) = (*color)?;
            Some((at, Tile { sifted: tile.sifted, over: tile.over, color, spread }))
        };
        self.tiles.iter().zip(colors).enumerate().filter_map(tile).collect()
    }

    /// The glass that fits these tiles; none without one.
    pub fn fitted(&self, tiles: &[(usize, Tile)]) -> Option<Result<Fitted, Notice>> {
        let tiles: Vec<Tile> = tiles.iter().map(|(_, tile)| tile.clone()).collect();
        (!tiles.is_empty()).then(|| fit(&tiles, &self.bases, &self.powder))
    }

    /// The glass as it goes onto the shelf.
    pub fn glass(&self, id: &str, tiles: &[(usize, Tile)], fitted: &Fitted) -> Glass {
        let tiles = tiles.iter().map(|(_, tile)| tile.clone()).collect();
        let packing = (self.powder.packing != PACKING.usual).then_some(self.powder.packing);
        fitted.glass(id, &self.name, tiles, (self.powder.density, packing))
    }

    /// Takes colors from another photo, on which nothing is marked yet.
    pub fn take_photo(&mut self, photo: Photo) {
        self.photo = Some(PhotoDraft::new(photo));
        self.tiles.iter_mut().for_each(|tile| tile.frame = None);
    }

    /// What is marked on the photo: the white, and then the tiles.
    pub fn marks(&self) -> Vec<Mark> {
        let Some(PhotoDraft { photo, white }) = &self.photo else { return Vec::new() };
        let white = Mark { name: words::WHITE_MARK.into(), frame: *white };
        let tiles = self.tiles.iter().enumerate().map(|(at, tile)| Mark {
            name: words::tile(at),
            frame: tile.frame.unwrap_or_else(|| usual_frame(at, photo.size)),
        });
        std::iter::once(white).chain(tiles).collect()
    }

    /// Takes the mark at this place elsewhere.
    pub fn put_mark(&mut self, at: usize, frame: Frame) {
        match (at.checked_sub(1), &mut self.photo) {
            (None, Some(photo)) => photo.white = frame,
            (Some(tile), _) => self.tiles.get_mut(tile).into_iter().for_each(|tile| tile.frame = Some(frame)),
            (None, None) => {}
        }
    }
}

/// The glass that is being made, as it is written down.
#[derive(Clone, Copy)]
pub struct TileDesk {
    /// What is written down.
    pub draft: RwSignal<Draft>,
    /// What is said beside it when it is next looked at.
    pub remark: RwSignal<Option<String>>,
    /// What was laid there for the maker to go on with.
    laid: StoredValue<Draft>,
}

impl TileDesk {
    /// Nothing written down yet.
    pub fn new() -> Self {
        Self {
            draft: RwSignal::new(Draft::default()),
            remark: RwSignal::new(None),
            laid: StoredValue::new(Draft::default()),
        }
    }

    /// Lays a draft there, unless something that the maker has begun lies there; whether it did.
    pub fn lay(&self, draft: Draft) -> bool {
        let untouched = self
            .draft
            .with_untracked(|now| self.laid.with_value(|laid| now == laid || *now == Draft::default()));
        if untouched {
            self.laid.set_value(draft.clone());
            self.draft.set(draft);
        }
        untouched
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::color::difference::de2000;
    use dappledome::color::difference::to_lab;
    use dappledome::color::srgb::decode;
    use dappledome::glass::catalogue;
    use dappledome::tiles::ladder::{Base, ladder};

    fn fitted(draft: &Draft) -> Option<Result<Fitted, Notice>> {
        draft.fitted(&draft.seen(&draft.typed()))
    }

    #[test]
    fn nothing_is_fitted_before_a_color_is_read_and_one_tile_is_enough() {
        let mut draft = Draft::default();
        assert!(fitted(&draft).is_none());
        draft.tiles[1].color = "no color".into();
        assert!(fitted(&draft).is_none());
        draft.tiles[1].color = "#A05000".into();
        let tiles = draft.seen(&draft.typed());
        let fitted = draft.fitted(&tiles).unwrap().unwrap();
        assert!(fitted.apart[0] < 0.5, "{:?}", fitted.apart);
        draft.name = " Rust, May ".into();
        let glass = draft.glass("of_may", &tiles, &fitted);
        assert_eq!((glass.name.as_str(), glass.powder, glass.packing), ("Rust, May", true, None));
        assert!(
            matches!(&glass.source, Source::Tiles(fired) if de2000(fired[0].color, tiles[0].1.color) == 0.0)
        );
    }

    /// One more tile of a glass: its own come along as they were read, and fit to the same glass.
    #[test]
    fn one_more_tile_brings_those_that_there_are() {
        let color = [52.34, 21.07, -18.9];
        let tile = Tile { sifted: Sifted::Loose(Mm(0.45)), over: Over::White, color, spread: Some(2.5) };
        let rust = catalogue::find("rust").expect("it is in the catalogue");
        let mut glass = Glass::new("own", "Rust of May", rust.material.clone());
        (glass.source, glass.packing, glass.density) = (Source::Tiles(vec![tile.clone()]), Some(0.4), 3.1);
        let next = |on| NextTile { depth: 0.15, on, then: 1.0 };
        let draft = Draft::one_more(&glass, next(On::White));
        assert_eq!((draft.name.as_str(), draft.tiles.len()), ("Rust of May", 2));
        assert_eq!((draft.powder.packing, draft.powder.density), (0.4, 3.1));
        assert_eq!(draft.seen(&draft.typed()), [(0, tile)]);
        assert_eq!(draft.tiles[1].sifted, Sifted::Loose(Mm(f64::from(0.15f32))));
        let mut typed = draft.clone();
        typed.tiles[0].type_color("#804020".into());
        assert_eq!(typed.seen(&typed.typed())[0].1.spread, None, "what is typed lies about nothing");
        assert_eq!(Draft::one_more(rust, next(On::White)).tiles.len(), 1);
        let chalk = catalogue::find("chalk").expect("it is in the catalogue");
        let opal = Draft::one_more(chalk, next(On::Both));
        assert_eq!([opal.tiles[0].over, opal.tiles[1].over], [Over::White, Over::Black]);
        assert!(opal.powder.milkiness > 1.0, "{:?}", opal.powder);
    }

    /// At a tile's own depth the ladder shows the tile, however closely its powder packs.
    #[test]
    fn the_packing_that_was_typed_comes_along() {
        let mut draft = Draft::default();
        draft.powder.packing = 0.58;
        draft.tiles[1].color = "#A05000".into();
        let tiles = draft.seen(&draft.typed());
        let fitted = draft.fitted(&tiles).unwrap().unwrap();
        let glass = draft.glass("of_may", &tiles, &fitted);
        assert_eq!(glass.packing, Some(0.58));
        let (_, tile) = &tiles[0];
        let depth = tile.sifted.loose(&draft.powder) as f32;
        let shown = ladder(&glass, PACKING.usual as f32, Base::White, &[depth])[0];
        assert!(de2000(to_lab(decode(shown)), tile.color) < 0.7, "{shown:?}");
    }

    /// The frames that the maker has drawn go with their tiles, and with the photo.
    #[test]
    fn marks_are_of_the_photo_and_its_tiles() {
        let photo = || Photo {
            name: "tiles.png".into(),
            size: (400, 300),
            rgba: vec![200; 480_000],
            smaller_from: None,
        };
        let mut draft = Draft::default();
        assert!(draft.marks().is_empty());
        draft.take_photo(photo());
        let names: Vec<String> = draft.marks().into_iter().map(|mark| mark.name).collect();
        assert_eq!(names, ["white", "tile 1", "tile 2"]);
        let there = Frame { shape: Shape::Rectangle, left: 7, top: 8, wide: 90, high: 60 };
        draft.put_mark(0, there);
        draft.put_mark(2, Frame { left: 9, ..there });
        draft.tiles.remove(0);
        let lefts: Vec<i32> = draft.marks().into_iter().map(|mark| mark.frame.left).collect();
        assert_eq!(lefts, [7, 9]);
        draft.take_photo(photo());
        assert!(draft.marks().iter().all(|mark| mark.frame.left > 9), "another photo is another view");
    }
}
