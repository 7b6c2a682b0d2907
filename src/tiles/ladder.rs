//! A glass from a dusting to a heap, as its test tiles would be fired: over white, in clear glass, over black.

use super::tile::{Bases, Over};
use crate::base::scalar::{exp2, log2};
use crate::color::spectrum::to_linear;
use crate::color::srgb::{encode, pull_in};
use crate::glass::catalogue;
use crate::glass::kind::Glass;
use crate::optics::layer::Layer;
use crate::optics::stack::Lit;
use crate::optics::test_tile::Color;

/// What a ladder lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base {
    /// An opaque white.
    White,
    /// A sheet of clear glass of 3 mm, lit from behind.
    Clear,
    /// An opaque black.
    Black,
}

impl Base {
    /// All there are.
    pub const ALL: [Self; 3] = [Self::White, Self::Clear, Self::Black];
}

/// The depths of a ladder of so many rungs, mm of loose powder, evenly by ratio from the shallowest to the deepest.
pub fn depths(shallowest: f32, deepest: f32, rungs: usize) -> Vec<f32> {
    let steps = log2(deepest / shallowest);
    let part = |rung: usize| rung as f32 / (rungs.max(2) - 1) as f32;
    (0..rungs).map(|rung| shallowest * exp2(steps * part(rung))).collect()
}

/// The fired colors of a glass's powder, so many mm deep when loose, a perfect white being white. `packing` is the share of a bed
/// that is glass, if the glass has none of its own.
pub fn ladder(glass: &Glass, packing: f32, base: Base, depths: &[f32]) -> Vec<Color> {
    let (material, packing) = (glass.fired_powder(), glass.packing.map_or(packing, |own| own as f32));
    let scatters = material.scatters();
    let on = |over: Over, layer: &Layer| {
        let mut seen = Bases::default().under(over);
        seen.lay((layer, layer, 0.0), scatters);
        seen.shows()
    };
    let color = |depth: &f32| {
        let layer = Layer::of(&material, (packing * depth).into());
        let spectrum = match base {
            Base::White => on(Over::White, &layer),
            Base::Black => on(Over::Black, &layer),
            Base::Clear => {
                let mut lit = clear_lit();
                lit.lay((&layer, &layer, 0.0), scatters);
                lit.shows()
            }
        };
        encode(pull_in(to_linear(&spectrum)))
    };
    depths.iter().map(color).collect()
}

/// A bare sheet of clear glass of 3 mm, lit from behind.
pub fn clear_lit() -> Lit {
    let mut lit = Lit::lamp();
    if let Some(clear) = catalogue::find("clear") {
        let sheet = Layer::of(&clear.material, 3.0);
        lit.lay((&sheet, &sheet, 0.0), false);
    }
    lit
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::srgb::encode_channel;

    #[test]
    fn rungs_are_even_by_ratio() {
        let rungs = depths(0.03, 3.0, 3);
        for (rung, want) in rungs.iter().zip([0.03, 0.3, 3.0]) {
            assert!((rung / want - 1.0).abs() < 1e-5, "{rungs:?}");
        }
    }

    /// The usual white of a tile looks like 0.839 of a perfect one (`Bases`), and black is black.
    #[test]
    fn next_to_nothing_shows_its_base() {
        let clear = catalogue::find("clear").expect("it is in the catalogue");
        let [white, _, black] = Base::ALL.map(|base| ladder(clear, 0.45, base, &[1e-6])[0]);
        let want = (encode_channel(0.839) * 255.0).round() as i32;
        assert!(white.iter().all(|code| (i32::from(*code) - want).abs() <= 1), "{white:?} for {want}");
        assert!(black.iter().all(|code| *code <= 1), "{black:?}");
    }

    #[test]
    fn deeper_is_darker_over_white_and_in_clear_glass_and_chalk_whitens_black() {
        let light = |color: &Color| color.iter().map(|code| u32::from(*code)).sum::<u32>();
        let along = |id: &str, base| {
            let glass = catalogue::find(id).expect("it is in the catalogue");
            ladder(glass, 0.45, base, &depths(0.03, 3.0, 9)).iter().map(light).collect::<Vec<u32>>()
        };
        for base in [Base::White, Base::Clear] {
            let rust = along("rust", base);
            assert!(rust.windows(2).all(|two| two[1] < two[0]), "{rust:?}");
        }
        let chalk = along("chalk", Base::Black);
        assert!(chalk.windows(2).all(|two| two[1] > two[0]), "{chalk:?}");
    }
}
