//! Colors from a dusting to a heap, as the style sheet paints them, over one axis of depth.

use dappledome::base::scalar::log2;
use dappledome::glass::kind::Glass;
use dappledome::optics::test_tile::Color;
use dappledome::recipe::Recipe;
use dappledome::tiles::ladder::{Base, depths, ladder};

/// From and to, mm of loose powder.
pub const ENDS: (f32, f32) = (0.03, 3.0);
/// Rungs of a ladder: between two of them the browser's own straight line is nearer than an eye sees.
const RUNGS: usize = 33;

/// The depths of the rungs.
pub fn rungs() -> Vec<f32> {
    depths(ENDS.0, ENDS.1, RUNGS)
}

/// Where a depth lies between the ends by ratio, 0 to 1.
pub fn along(depth: f32) -> f32 {
    (log2(depth / ENDS.0) / log2(ENDS.1 / ENDS.0)).clamp(0.0, 1.0)
}

/// What a glass fires to from one end to the other.
pub fn painted(glass: &Glass, base: Base) -> String {
    let colors = fired(glass, base, &rungs());
    to_right(colors.iter().map(|[r, g, b]| format!("rgb({r} {g} {b})")))
}

/// The same at these depths, as bands of equal width beside one another.
pub fn banded(glass: &Glass, base: Base, depths: &[f32]) -> String {
    bands(&fired(glass, base, depths))
}

fn fired(glass: &Glass, base: Base, depths: &[f32]) -> Vec<Color> {
    ladder(glass, Recipe::bare().packing as f32, base, depths)
}

fn bands(colors: &[Color]) -> String {
    let all = colors.len() as f32;
    to_right(colors.iter().enumerate().map(|(at, [r, g, b])| {
        let (from, to) = (at as f32 / all * 100.0, (at + 1) as f32 / all * 100.0);
        format!("rgb({r} {g} {b}) {from}% {to}%")
    }))
}

fn to_right(stops: impl Iterator<Item = String>) -> String {
    format!("linear-gradient(to right, {})", stops.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_stand_beside_one_another_without_a_gap() {
        let two = bands(&[[1, 2, 3], [4, 5, 6]]);
        assert_eq!(two, "linear-gradient(to right, rgb(1 2 3) 0% 50%, rgb(4 5 6) 50% 100%)");
    }
}
