//! From a tile to a glass, in words.

use dappledome::base::units::fixed;
use dappledome::tiles::next_tile::{NextTile, On};
use dappledome::tiles::sureness::{By, Sureness};

/// The area.
pub const FROM_A_TILE: &str = "From a tile to a glass";
/// Opens it.
pub const MAKE_FROM_TILE: &str = "Make a glass from a fired tile";
/// Leaves it; what is written down stays.
pub const LEAVE_TILE: &str = "Leave it";
/// What to do.
pub const HOW_TO_TILE: &str = "Sift a known amount of one jar on white, fire it as your pieces are fired, and photograph it beside \
     something white, or type the color it has by daylight. Two tiles of different depth tell far more than one; one over black as well tells a cloudy glass from a clear one.";
/// How the amount was measured.
pub const HOW_SIFTED: &str = "How it was sifted";
/// As a depth.
pub const IN_MM: &str = "mm";
/// By weight.
pub const IN_GRAMS: &str = "grams";
/// Between grams and area.
pub const ON_AREA: &str = "g on";
/// What a tile lies on.
pub const LIES_OVER: &str = "Over";
/// White.
pub const OVER_WHITE: &str = "white";
/// Black.
pub const OVER_BLACK: &str = "black";
/// One more.
pub const ADD_TILE: &str = "Add a tile";
/// One less.
pub const LEAVE_OUT: &str = "Leave out";
/// How bright the bare white is.
pub const WHITE_SHOWS: &str = "Bare white, of a perfect one";
/// What an opal scatters, where no tile over black tells it.
pub const OPAL_SCATTERS: &str = "Scatter per mm: 0 clear, 3 an opal";
/// Before the ladder.
pub const WHAT_IT_WILL_DO: &str = "What it will do on white, from a dusting to 3 mm.";
/// The line of sureness, to those who do not see it.
pub const HOW_SURE_LINE: &str = "How far the color may be off, from 0.03 to 3 mm sifted, from 0 to 8";
/// Under it.
pub const SURE_AXIS: &str = "How far it may be off, 0 below to 8 above: 2 is hard to see, 5 is plain.";
/// In the empty field.
pub const NAME_FOR_INSTANCE: &str = "Rust, jar of May";
/// Puts it there.
pub const PUT_ON_SHELF: &str = "Put it on the shelf";
/// What hurts.
pub const TILE_CAUTION: &str = "Sift and scrape in a fitted respirator rated for fine dust; wet-wipe, never sweep. All of this, the photo too, stays on this machine.";

/// A tile by its place.
pub fn tile(at: usize) -> String {
    format!("tile {}", at + 1)
}

/// Its depth.
pub fn depth_of_tile(at: usize) -> String {
    format!("Depth of tile {}", at + 1)
}

/// Its grams.
pub fn grams_of_tile(at: usize) -> String {
    format!("Grams on tile {}", at + 1)
}

/// The area of its powder.
pub fn area_of_tile(at: usize) -> String {
    format!("Area of tile {}, cm²", at + 1)
}

/// Its color.
pub fn color_of_tile(at: usize) -> String {
    format!("Color of tile {}", at + 1)
}

/// Leaves it out.
pub fn leave_tile_out(at: usize) -> String {
    format!("Leave out tile {}", at + 1)
}

/// How far seen and reckoned color are apart.
pub fn apart_by(apart: f64) -> String {
    format!("apart by {}", fixed(apart, 1))
}

/// The glass is there.
pub fn glass_on_shelf(name: &str) -> String {
    format!("{name} is on the shelf.")
}

/// How far off its colors may be between its tiles; none for a glass that is made up.
pub fn plus_minus(sureness: &Sureness) -> Option<String> {
    let depth = match sureness {
        Sureness::Tiles(evidence) => (evidence.depths().first()? * evidence.depths().last()?).sqrt(),
        _ => 1.0,
    };
    Some(format!("±{}", fixed(f64::from(sureness.at(depth, By::Day)?).max(1.0), 0)))
}

/// What one more tile would bring where powder lies 0.1 to 1 mm deep.
pub fn one_more_tile(now: f32, next: NextTile) -> String {
    let off = |off: f32| fixed(f64::from(off).max(1.0), 0);
    let depth = fixed(f64::from(next.depth), 2);
    let over = if next.on == On::White { "white" } else { "black" };
    format!(
        "From 0.1 to 1 mm ±{} at worst; one more tile, {depth} mm over {over}, would make that ±{}.",
        off(now),
        off(next.then)
    )
}

/// How sure the colors of a glass are, in a sentence.
pub fn how_sure(sureness: &Sureness) -> String {
    let at = |depth: f32| sureness.at(depth, By::Day).map(|off| fixed(f64::from(off).max(1.0), 0));
    match sureness {
        Sureness::Invented => "Invented: nobody knows how sure.".into(),
        Sureness::Measured(_) => "Measured over the whole spectrum.".into(),
        Sureness::Tiles(evidence) => {
            let (Some(first), Some(last)) = (evidence.depths().first(), evidence.depths().last()) else {
                return String::new();
            };
            let [near, thin, deep] =
                [(first * last).sqrt(), 0.03, 3.0].map(|depth| at(depth).unwrap_or_default());
            let place = if evidence.depths().len() > 1 { "between the tiles" } else { "near the tile" };
            format!("About ±{near} {place}, ±{thin} at a dusting, ±{deep} at 3 mm.")
        }
    }
}
