//! A file of fired tiles.

use super::piece;
use dappledome::color::typed;
use dappledome::glass::kind::{DENSITY, Glass};
use dappledome::recipe::limits::PACKING;
use dappledome::serve::trouble::Trouble;
use dappledome::tiles::fit::Fitted;
use dappledome::tiles::tile::{Bases, Over, Powder, Sifted, Tile};
use serde::Deserialize;
use std::path::Path;

/// The version that is read.
const VERSION: u32 = 1;
/// The largest file that is read, bytes.
const MOST_BYTES: usize = 1 << 20;

/// Tiles of one jar.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TileFile {
    version: u32,
    /// What the glass is to be called.
    pub name: String,
    /// How bright the bare white looks, of a perfect white.
    #[serde(default)]
    white: Option<f64>,
    /// How bright the bare black looks.
    #[serde(default)]
    black: Option<f64>,
    /// Share of the sifted bed that is glass.
    #[serde(default)]
    packing: Option<f64>,
    /// Density, g/cm³.
    #[serde(default)]
    density: Option<f64>,
    /// Back-scatter per mm of an opal whose tiles lie over white alone.
    #[serde(default)]
    milkiness: f64,
    tiles: Vec<WrittenTile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenTile {
    sifted: Sifted,
    over: Over,
    color: String,
}

/// Reads such a file.
pub fn read(path: &Path) -> Result<TileFile, Trouble> {
    let text = piece::text_of(path, "tile", MOST_BYTES)?;
    let no_tiles = |why: String, remedy: &str| {
        Trouble::new(format!("{}: no file of tiles.", path.display()), why, remedy)
    };
    let file: TileFile = serde_json::from_str(&text).map_err(|mistake| {
        no_tiles(format!("{mistake}."), "Mend it there; examples/tiles has one to go by.")
    })?;
    if file.version != VERSION {
        let why = format!("It says version {}; this program reads version {VERSION}.", file.version);
        return Err(no_tiles(why, "Use a newer Dappledome."));
    }
    Ok(file)
}

impl TileFile {
    /// The tiles with their colors read.
    pub fn read_tiles(&self) -> Result<Vec<Tile>, Trouble> {
        let each = self.tiles.iter().enumerate().map(|(at, tile)| {
            let color = typed::read(&tile.color).map_err(|why| {
                Trouble::new(
                    format!("Tile {} has no color.", at + 1),
                    why.to_string(),
                    "Mend it in the file.",
                )
            })?;
            Ok(Tile { sifted: tile.sifted, over: tile.over, color: color.lab(), spread: None })
        });
        each.collect()
    }

    /// The bare bases.
    pub fn bases(&self) -> Bases {
        let usual = Bases::default();
        Bases { white: self.white.unwrap_or(usual.white), black: self.black.unwrap_or(usual.black) }
    }

    /// What the powder is like.
    pub fn powder(&self) -> Powder {
        Powder {
            packing: self.packing.unwrap_or(PACKING.usual),
            density: self.density.unwrap_or(DENSITY),
            milkiness: self.milkiness,
        }
    }

    /// The glass that was fitted to them.
    pub fn glass(&self, id: &str, tiles: Vec<Tile>, fitted: &Fitted) -> Glass {
        fitted.glass(id, &self.name, tiles, (self.powder().density, self.packing))
    }
}
