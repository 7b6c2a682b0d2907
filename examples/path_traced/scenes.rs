//! The pieces that are compared, as recipes and as glass to trace: even coats, so that nothing hangs on chance.

use super::glass::{Kind, Layer, Stack};
use super::space::Dome;
use dappledome::base::units::Mm;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Coat, Fall, Part, Recipe, Sheet, Side, demo};

/// Width and height of the pictures.
pub const SIZE: u32 = 96;

/// A piece.
#[derive(Clone, Copy, Debug)]
pub struct Scene {
    /// What its files are called.
    pub name: &'static str,
    /// Its sheets, bottom to top.
    sheets: [&'static str; 2],
    /// The powder of its coat by parts, and how thick it is when fused, mm.
    coat: Option<(&'static [(&'static str, f64)], f64)>,
    /// Whether the powder is inside.
    inside: bool,
}

const WHITE: [&str; 2] = ["clear", "white"];
const CLEAR: [&str; 2] = ["clear", "clear"];
const TINT: Option<(&[(&str, f64)], f64)> = Some((&[("lagoon", 2.0), ("straw", 1.0)], 0.12));
const HAZE: Option<(&[(&str, f64)], f64)> = Some((&[("chalk", 1.0)], 0.1));

/// All of them.
pub const SCENES: [Scene; 8] = [
    Scene { name: "white", sheets: WHITE, coat: None, inside: false },
    Scene { name: "clear", sheets: CLEAR, coat: None, inside: false },
    Scene { name: "tint_on_white", sheets: WHITE, coat: TINT, inside: false },
    Scene { name: "tint_on_clear", sheets: CLEAR, coat: TINT, inside: false },
    Scene { name: "haze_on_clear", sheets: CLEAR, coat: HAZE, inside: false },
    Scene { name: "tint_in_white", sheets: WHITE, coat: TINT, inside: true },
    Scene { name: "tint_in_clear", sheets: CLEAR, coat: TINT, inside: true },
    Scene { name: "haze_in_clear", sheets: CLEAR, coat: HAZE, inside: true },
];

impl Scene {
    /// The recipe.
    pub fn recipe(&self) -> Recipe {
        let mut recipe = demo::ember_walk();
        recipe.blank.sheets =
            self.sheets.iter().map(|glass| Sheet { glass: (*glass).into(), thickness: Mm(3.0) }).collect();
        recipe.sponge = None;
        recipe.accents = None;
        recipe.powder_side = if self.inside { Side::In } else { Side::Out };
        recipe.coats.truncate(usize::from(self.coat.is_some()));
        if let (Some((powder, fused)), Some(coat)) = (self.coat, recipe.coats.first_mut()) {
            *coat = Coat {
                powder: powder
                    .iter()
                    .map(|(glass, parts)| Part { glass: (*glass).into(), parts: *parts })
                    .collect(),
                fall: Fall::Even { depth: Mm(fused / recipe.packing) },
                unevenness: 0.0,
                bare_rim_raggedness: Mm(0.0),
                ..coat.clone()
            };
        }
        recipe
    }

    /// The checked recipe.
    pub fn plan(&self) -> Plan {
        Plan::new(&self.recipe()).expect("the scenes have no faults").plan
    }

    /// The dome as a solid.
    pub fn dome(&self) -> Dome {
        let plan = self.plan();
        let (mold, thickness) = (&plan.mold, f64::from(plan.blank_thickness()));
        Dome::new(mold.opening.0, mold.depth.0, f64::from(plan.disc.radius()), thickness)
    }

    /// Its glass. The coat takes up the outermost part of the sheets' thickness, so that the shape stays the same.
    pub fn stack(&self) -> Stack {
        let plan = self.plan();
        let thickness = f64::from(plan.blank_thickness());
        let mut kinds = Vec::new();
        let mut bare: Vec<Layer> = Vec::new();
        let mut depth = 0.0;
        let mut sheets: Vec<_> = plan.sheets.iter().collect();
        // The last sheet carries the powder: with the powder inside it is the lowest one of the dome.
        if !self.inside {
            sheets.reverse();
        }
        for sheet in sheets {
            depth += f64::from(sheet.thickness);
            let same = bare.last().is_some_and(|(_, kind)| *kind + 1 == kinds.len())
                && plan.sheets.iter().all(|other| other.glass.id == sheet.glass.id);
            if same {
                bare.pop();
            } else {
                kinds.push(Kind::of(&sheet.glass.material));
            }
            bare.push((depth, kinds.len() - 1));
        }
        let mut coated = bare.clone();
        let mut coated_to = f64::from(plan.disc.radius());
        if let Some(coat) = plan.coats.first() {
            let fused = f64::from(coat.sift.depth() * plan.packing);
            coated_to -= f64::from(coat.sift.bare_rim);
            kinds.push(Kind::of(&coat.blend.material));
            let kind = kinds.len() - 1;
            if self.inside {
                let last = coated.len() - 1;
                coated[last].0 -= fused;
                coated.push((thickness, kind));
            } else {
                coated.insert(0, (fused, kind));
            }
        }
        Stack { kinds, coated, bare, coated_to }
    }
}
