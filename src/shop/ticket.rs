//! The ticket: every number of a recipe that has to be weighed, cut or measured.

use crate::base::memo::{Allowance, Paused};
use crate::base::seed::Seed;
use crate::base::units::{Grams, Mm};
use crate::preview::Preview;
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// The numbers of a recipe and seed, for the whole batch where it says so.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ticket {
    /// Pieces to make, spares included.
    pub pieces: u32,
    /// Powder on one disc, coat by coat.
    pub coats: Vec<CoatGrams>,
    /// Powder to have ready for the batch, glass by glass, with what falls past the disc.
    pub powders: Vec<PowderGrams>,
    /// Powder on one disc before the sponge.
    pub sifted: Grams,
    /// Powder that the sponge takes off one disc.
    pub lifted: Grams,
    /// Touches of the sponge's rolls on one disc.
    pub rolls: u32,
    /// Discs to cut for the batch, bottom to top.
    pub discs: Vec<DiscCut>,
    /// Accents to set on one piece, glass by glass.
    pub accents: Vec<AccentCount>,
    /// Diameter of the flat fused disc.
    pub fused_across: Mm,
    /// Thickness of the flat fused disc.
    pub fused_thickness: Mm,
    /// Diameter of the finished dome, outside.
    pub dome_across: Mm,
    /// Height of the finished dome, outside.
    pub dome_high: Mm,
}

/// Powder of one coat on one disc.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CoatGrams {
    /// The coat's id.
    pub id: u32,
    /// On the disc before the sponge.
    pub sifted: Grams,
    /// On the disc after the sponge, what was put back included.
    pub left: Grams,
}

/// Powder of one glass to have ready.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PowderGrams {
    /// Id of the glass.
    pub glass: String,
    /// To have ready, for the batch.
    pub ready: Grams,
}

/// Discs of one sheet glass to cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DiscCut {
    /// Id of the glass.
    pub glass: String,
    /// Thickness of the sheet.
    pub thickness: Mm,
    /// Diameter to cut.
    pub diameter: Mm,
    /// How many, for the batch.
    pub count: u32,
}

/// Accents of one glass on one piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AccentCount {
    /// Id of the glass.
    pub glass: String,
    /// How many.
    pub count: u32,
}

/// The ticket of a plan and seed, computed at draft resolution so that page and native program agree to the gram.
///
/// # Errors
/// [`Paused`] when the allowance is spent before it is done.
pub fn ticket(
    _preview: &mut Preview,
    _plan: &Plan,
    _seed: Seed,
    _allowance: &mut Allowance,
) -> Result<Ticket, Paused> {
    Err(Paused)
}
