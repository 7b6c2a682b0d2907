//! Settling: loose powder closes up to solid glass, levels a little and shows its grain.

use super::leveling::{LEVELING, blur};
use super::speckle::Speckle;
use crate::base::grid::Grid;
use crate::layup::field::hash;
use crate::layup::powder_bed::{Plane, PowderBed};
use crate::recipe::plan::{Plan, PlannedCoat};

/// A fused flat disc: glass per cell, mm, in optical order.
#[derive(Clone, Debug)]
pub struct FusedDisc {
    /// The grid all planes lie on. The fused disc is taken to keep the blank's diameter.
    pub grid: Grid,
    /// Glass of each coat, bottom to top.
    pub coats: Vec<Vec<f32>>,
    /// Glass of each coat's powder in the mixture on top; no planes if there is none.
    pub mixture: Vec<Vec<f32>>,
}

/// What settling needs to know of a coat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grain {
    /// Its number, for its luck.
    pub coat: u32,
    /// Its grain by the sieve, mm.
    pub sieve: f32,
    /// The share of its bed that is glass.
    pub packing: f32,
}

impl Grain {
    /// Those of a plan's coats.
    pub fn of(plan: &Plan) -> Vec<Self> {
        let of = |coat: &PlannedCoat| Self {
            coat: coat.sift.id,
            sieve: coat.blend.sieve,
            packing: coat.blend.packing,
        };
        plan.coats.iter().map(of).collect()
    }
}

/// Melts a bed down.
pub fn settle(bed: &PowderBed, grains: &[Grain]) -> FusedDisc {
    let melt = |planes: &[Plane], salt: u32| -> Vec<Vec<f32>> {
        planes
            .iter()
            .zip(grains)
            .map(|(plane, grain)| {
                let key = hash(grain.coat as i32, 0, salt);
                let speckle = Speckle::fired(grain.sieve, bed.grid.cell(), key);
                melt_plane(&bed.grid, plane, grain.packing, &speckle)
            })
            .collect()
    };
    FusedDisc { grid: bed.grid, coats: melt(&bed.coats, 1), mixture: melt(&bed.put_back, 2) }
}

/// A coat lies where it is at least this part of its mean thickness where it lies at all: less is dust (by eye).
const LIES: f32 = 0.3;

/// The thickness from which on a coat lies somewhere, mm, by its glass in all cells; infinite if it lies nowhere.
pub fn lies_from(glass: &[f32]) -> f32 {
    let there = glass.iter().filter(|glass| **glass > 1e-3);
    let (sum, count) = there.fold((0.0, 0.0), |(sum, count), glass| (sum + glass, count + 1.0_f32));
    if count > 0.0 { LIES * sum / count } else { f32::INFINITY }
}

fn melt_plane(grid: &Grid, loose: &[f32], packing: f32, speckle: &Speckle) -> Vec<f32> {
    blur(grid, loose, (LEVELING, packing), |y| speckle.along(y))
}
