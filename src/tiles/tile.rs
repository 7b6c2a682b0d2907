//! A test tile: powder sifted on a base, fired, and its color read.

use crate::base::notice::{Notice, Severity, Step};
use crate::optics::stack::Seen;
use crate::optics::surface::{CONE, DIFFUSE_OUTSIDE};

pub use crate::glass::tile::{Over, Powder, Sifted, Tile};

/// How bright the bare bases look, surface gloss left out, a perfect white being 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bases {
    /// The white base, 0.3 to 1.
    pub white: f64,
    /// The black base, 0 to 0.2.
    pub black: f64,
}

impl Default for Bases {
    /// A white that sends back 0.93 of the light inside it, and a black that sends back nothing.
    fn default() -> Self {
        Self { white: 0.839, black: 0.0 }
    }
}

impl Bases {
    /// The bare base.
    pub fn under(&self, over: Over) -> Seen {
        Seen::on(match over {
            Over::White => inside(self.white),
            Over::Black => inside(self.black),
        } as f32)
    }
}

/// Share of the light inside an opaque glass that it sends back, if it looks like this: the model of `optics::stack` solved for
/// it, which is Saunderson's correction (1942, J. Opt. Soc. Am. 32, 727; from memory) without the gloss.
fn inside(look: f64) -> f64 {
    let out = (1.0 - DIFFUSE_OUTSIDE) * CONE;
    look / (out + (1.0 - out) * look)
}

/// Depths of loose powder, mm, that a tile can have been sifted to.
const DEPTHS: (f64, f64) = (0.01, 10.0);

/// What makes it no tile.
fn fault_of(tile: &Tile, powder: &Powder) -> Option<Notice> {
    if let Sifted::Weighed { grams, area } = tile.sifted
        && !(grams > 0.0 && area > 0.0)
    {
        return Some(fault(
            "Not weighed yet.",
            "Grams and area of a tile must be more than nothing.",
            "Weigh the powder that lay on the tile, and measure the area it covered.",
        ));
    }
    let depth = tile.sifted.loose(powder);
    if !(DEPTHS.0..=DEPTHS.1).contains(&depth) {
        return Some(fault(
            "No tile lies so deep.",
            format!(
                "It comes to {depth:.3} mm of loose powder; {} to {} mm can be fired.",
                DEPTHS.0, DEPTHS.1
            ),
            "Check grams and area, or type the depth in mm.",
        ));
    }
    let [l, a, b] = tile.color;
    let is_color = (-1.0..=120.0).contains(&l) && [a, b].iter().all(|x| x.abs() <= 200.0);
    (!is_color).then(|| {
        fault(
            "No color yet.",
            "The tile's color is none that can be seen.",
            "Type the color that it has by daylight.",
        )
    })
}

/// What makes tiles, their bases or their powder unfit to be reckoned with.
pub(super) fn first_fault(tiles: &[Tile], bases: &Bases, powder: &Powder) -> Option<Notice> {
    let within = |value: f64, least: f64, most: f64| (least..=most).contains(&value);
    if !within(powder.packing, 0.3, 0.65) || !within(powder.density, 2.0, 6.0) {
        return Some(fault(
            "Packing or density is off.",
            "Packing goes from 0.30 to 0.65, density from 2 to 6 g/cm³.",
            "Weigh a level spoon of the powder, or take 0.45 and 2.5.",
        ));
    }
    if !within(powder.milkiness, 0.0, 20.0) {
        return Some(fault(
            "Milkiness is off.",
            "Scatter goes from 0 to 20 per mm.",
            "Take 0 for a transparent glass and 3 for an opal, or fire a tile over black.",
        ));
    }
    if !within(bases.white, 0.3, 1.0) || !within(bases.black, 0.0, 0.2) {
        return Some(fault(
            "Check the bases.",
            "A white base looks 0.3 to 1 of a perfect white, a black one 0 to 0.2.",
            "Take 0.84 for white and 0 for black, or measure them.",
        ));
    }
    if !tiles.iter().any(|tile| tile.over == Over::White) {
        return Some(fault(
            "No tile over white.",
            "Only light that comes back through the glass shows what it absorbs.",
            "Fire a tile over white.",
        ));
    }
    tiles.iter().find_map(|tile| fault_of(tile, powder))
}

fn fault(what: &str, why: impl Into<String>, remedy: &str) -> Notice {
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::spectrum::to_linear;

    /// By hand: 0.3 mm at packing 0.45 and 2.5 g/cm³ is 33.75 mg/cm², the worked example of common practice.
    #[test]
    fn grams_on_an_area_are_a_depth() {
        let powder = Powder { packing: 0.45, density: 2.5, milkiness: 0.0 };
        let weighed = Sifted::Weighed { grams: 0.03375 * 32.0, area: 32.0 };
        assert!((weighed.loose(&powder) - 0.3).abs() < 1e-12);
        // Packing cancels: what was weighed is glass.
        let tile = Tile { sifted: weighed, over: Over::White, color: [50.0, 0.0, 0.0], spread: None };
        let dense = Powder { packing: 0.6, ..powder };
        assert!((tile.thickness(&powder) - tile.thickness(&dense)).abs() < 1e-12);
    }

    #[test]
    fn a_bare_base_looks_as_it_is_said_to() {
        for (white, black) in [(0.839, 0.0), (0.5, 0.04), (1.0, 0.2)] {
            let bases = Bases { white, black };
            for (over, look) in [(Over::White, white), (Over::Black, black)] {
                let shown = to_linear(&bases.under(over).shows());
                assert!(shown.iter().all(|c| (f64::from(*c) - look).abs() < 1e-5), "{shown:?}, not {look}");
            }
        }
    }
}
