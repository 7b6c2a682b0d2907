//! Jars, and the ways to lay their powder.

use crate::glass::kind::Glass;
use crate::glass::material::Material;
use crate::tiles::sureness::Sureness;
use serde::{Deserialize, Serialize};

/// A jar to choose from.
#[derive(Clone, Copy, Debug)]
pub struct Jar<'a> {
    /// The glass as fired.
    pub material: &'a Material,
    /// How sure its colors are.
    pub sureness: &'a Sureness,
    /// Share of its sifted bed that is glass, 0 to 1.
    pub packing: f64,
}

/// What jars of glasses fire to.
pub struct Fired(Vec<(Material, Sureness, f64)>);

impl Fired {
    /// Those of these glasses; `packing` is the share of a bed that is glass, where a glass has none of its own.
    pub fn of<'a>(glasses: impl IntoIterator<Item = &'a Glass>, packing: f64) -> Self {
        let fired =
            |glass: &Glass| (glass.fired_powder(), Sureness::of(glass), glass.packing.unwrap_or(packing));
        Self(glasses.into_iter().map(fired).collect())
    }

    /// The jars, in the order of their glasses.
    pub fn jars(&self) -> Vec<Jar<'_>> {
        let jars = self.0.iter();
        jars.map(|(material, sureness, packing)| Jar { material, sureness, packing: *packing }).collect()
    }
}

/// A way to lay powder; jars are places in the list that was given, depths are mm of loose powder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Way {
    /// One jar.
    Alone {
        /// The jar.
        jar: usize,
        /// Its depth.
        depth: f64,
    },
    /// Two jars mixed.
    Blended {
        /// The jars.
        jars: [usize; 2],
        /// Parts by volume of each.
        parts: [u8; 2],
        /// Depth of the mixture.
        depth: f64,
    },
    /// One jar sifted over another one.
    Over {
        /// The jars, the lower first.
        jars: [usize; 2],
        /// The depth of each.
        depths: [f64; 2],
    },
}

/// Depths of loose powder that are looked at, mm.
pub const DEPTHS: (f64, f64) = (0.03, 3.0);
/// Parts that a scale and a patient hand can measure.
pub const PARTS: [[u8; 2]; 17] = [
    [8, 1],
    [6, 1],
    [5, 1],
    [4, 1],
    [3, 1],
    [5, 2],
    [2, 1],
    [3, 2],
    [1, 1],
    [2, 3],
    [1, 2],
    [2, 5],
    [1, 3],
    [1, 4],
    [1, 5],
    [1, 6],
    [1, 8],
];
impl Way {
    /// The jars it takes.
    pub fn jars(&self) -> Vec<usize> {
        match self {
            Self::Alone { jar, .. } => vec![*jar],
            Self::Blended { jars, .. } | Self::Over { jars, .. } => jars.to_vec(),
        }
    }

    /// How deep each jar lies, mm of loose powder: of a blend, its share of the depth.
    pub fn each(&self) -> Vec<(usize, f64)> {
        match *self {
            Self::Alone { jar, depth } => vec![(jar, depth)],
            Self::Blended { jars, parts, depth } => {
                let share = share(parts);
                vec![(jars[0], share * depth), (jars[1], (1.0 - share) * depth)]
            }
            Self::Over { jars, depths } => vec![(jars[0], depths[0]), (jars[1], depths[1])],
        }
    }

    /// Its depths, to be varied: one, or two.
    pub fn depths(&mut self) -> &mut [f64] {
        match self {
            Self::Alone { depth, .. } | Self::Blended { depth, .. } => std::slice::from_mut(depth),
            Self::Over { depths, .. } => depths,
        }
    }
}

/// Share of the first of two parts.
pub fn share([one, other]: [u8; 2]) -> f64 {
    f64::from(one) / (f64::from(one) + f64::from(other))
}
