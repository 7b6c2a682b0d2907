//! The parts of a plan: each step of a recipe as it is once it has been checked.

use super::by_hand::AccentLayout;
use super::limits;
use super::model::{Fall, Layout};
use crate::base::disc::Disc;
use crate::base::units::{Grams, Mm};
use crate::glass::kind::Glass;
use crate::glass::material::Material;

/// One disc of sheet glass.
#[derive(Clone, Debug)]
pub struct PlannedSheet {
    /// The glass.
    pub glass: Glass,
    /// Thickness, mm.
    pub thickness: f32,
}

/// One coat: where its powder lies and what it is made of are kept apart, so that a change of color moves nothing.
#[derive(Clone, Debug)]
pub struct PlannedCoat {
    /// Where the powder falls.
    pub sift: SiftPlan,
    /// The blend.
    pub blend: Blend,
}

/// Where the powder of one coat falls. Nothing in it says what glass the powder is.
#[derive(Clone, Debug, PartialEq)]
pub struct SiftPlan {
    /// Number of the coat.
    pub id: u32,
    /// The blank.
    pub disc: Disc,
    /// How it falls.
    pub fall: Fall,
    /// Bare rim, mm.
    pub bare_rim: f32,
    /// Raggedness of the bare rim, mm.
    pub bare_rim_raggedness: f32,
    /// Unevenness, share of the depth.
    pub unevenness: f32,
    /// Seed, turn and nudge of its own.
    pub layout: Layout,
}

/// A powder blended by parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Blend {
    /// The glasses and their shares of the fired glass, which add up to 1; no share is zero.
    pub shares: Vec<(Glass, f32)>,
    /// What the blend is optically, fired.
    pub material: Material,
    /// Grain as light sees it, mm.
    pub grain: f32,
    /// Grain by the sieve, mm.
    pub sieve: f32,
    /// Share of a sifted bed that is glass.
    pub packing: f32,
    /// Density, g/cm³.
    pub density: f64,
}

/// The accents with their number settled.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedAccents {
    /// Each glass with its share of the pieces.
    pub glasses: Vec<(Glass, f32)>,
    /// Size range, mm.
    pub sizes: (f32, f32),
    /// How many.
    pub count: u32,
    /// Radius of the middle of the band, mm.
    pub ring: f32,
    /// Width of the band, mm.
    pub band: f32,
    /// Least gap between middles along the ring, mm.
    pub least_gap: f32,
    /// 0 even to 1 by chance.
    pub looseness: f32,
    /// Their lock, and what was done by hand.
    pub layout: AccentLayout,
}

impl Blend {
    /// What it is called: its first glass.
    pub fn name(&self) -> &str {
        self.shares.first().map_or("This powder", |(glass, _)| &glass.name)
    }

    /// Thermal expansion, 1e-6/K.
    pub fn expansion(&self) -> f64 {
        self.shares.iter().map(|(glass, share)| f64::from(*share) * glass.expansion).sum()
    }

    /// Weight of so many mm³ of it, sifted.
    pub fn weight(&self, volume: f64) -> Grams {
        Grams(volume * f64::from(self.packing) * self.density / 1000.0)
    }

    /// Ids of its glasses and their shares of its weight, which add up to 1.
    pub fn shares_of_weight(&self) -> impl Iterator<Item = (&str, f64)> {
        self.shares
            .iter()
            .map(|(glass, share)| (&*glass.id, f64::from(*share) * (glass.density / self.density)))
    }
}

impl SiftPlan {
    /// The coat by whose chance it falls: itself, or the one that it lies together with.
    pub fn falls_by(&self) -> u32 {
        self.layout.falls_with.unwrap_or(self.id)
    }

    /// The depth this coat is meant to have, mm: its mean, its middle of a patch, or its thickest heap.
    pub fn depth(&self) -> f32 {
        match &self.fall {
            Fall::Even { depth } => depth.f32(),
            Fall::Patches(patches) => patches.depth.f32(),
            Fall::ThickAndThin(range) => range.thickest.f32(),
        }
    }

    /// The same however deep it lies: what is left is where the powder falls.
    #[must_use]
    pub fn however_deep(&self) -> Self {
        let mut plan = self.clone();
        match &mut plan.fall {
            Fall::Even { depth } => *depth = Mm(0.0),
            Fall::Patches(patches) => patches.depth = Mm(0.0),
            Fall::ThickAndThin(range) => {
                (range.thinnest, range.thickest, range.mostly_thin) = (Mm(0.0), Mm(0.0), 0.0);
            }
        }
        plan
    }

    /// The deepest it can lie anywhere, mm, the hand's wobble included.
    pub fn deepest(&self) -> f32 {
        self.depth() * limits::MOST_UNEVEN
    }
}
