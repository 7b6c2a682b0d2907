//! The ticket: every number of a recipe that has to be weighed, cut or measured.

use crate::base::memo::{Allowance, Paused};
use crate::base::seed::Seed;
use crate::base::units::{Grams, Mm};
use crate::glass::catalogue::DENSITY;
use crate::layup::accents::place;
use crate::picture::View;
use crate::preview::{Beds, Preview};
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
    /// Powder that the sponge takes off one disc, what is rubbed off by hand included.
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
    /// On the disc after the sponge and the rubbing, what was put back included.
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
    preview: &mut Preview,
    plan: &Plan,
    seed: Seed,
    allowance: &mut Allowance,
) -> Result<Ticket, Paused> {
    let Beds { sifted, left: bed } = preview.beds(plan, seed, View::DRAFT_CELLS as usize, allowance)?;
    let dome = preview.dome(plan, allowance)?;
    let grams = |volume: f64| Grams(volume * f64::from(plan.packing) * DENSITY / 1000.0);
    let coats: Vec<CoatGrams> = plan
        .coats
        .iter()
        .enumerate()
        .map(|(i, coat)| CoatGrams {
            id: coat.sift.id,
            sifted: grams(bed.grid.integral(&sifted[i])),
            left: grams(bed.volume(i)),
        })
        .collect();
    // The library's sum of nothing is -0.
    let total = |of: fn(&CoatGrams) -> Grams| Grams(coats.iter().fold(0.0, |sum, coat| sum + of(coat).0));
    let (all_sifted, all_left) = (total(|coat| coat.sifted), total(|coat| coat.left));
    let pieces = plan.batch.to_make();
    let diameter = Mm(2.0 * f64::from(plan.disc.radius()));
    let powder_thickness = all_left.0 * 1000.0 / DENSITY / f64::from(plan.disc.area());
    Ok(Ticket {
        pieces,
        powders: powders(plan, &coats, pieces),
        coats,
        sifted: all_sifted,
        lifted: Grams(all_sifted.0 - all_left.0),
        rolls: bed.sponge.rolls,
        discs: discs(plan, diameter, pieces),
        accents: accents(plan, seed),
        fused_across: diameter,
        fused_thickness: Mm(f64::from(plan.blank_thickness()) + powder_thickness),
        dome_across: dome.across(),
        dome_high: dome.high(),
    })
}

/// Powder to have ready: what lies on every disc before the sponge, and what falls past.
fn powders(plan: &Plan, coats: &[CoatGrams], pieces: u32) -> Vec<PowderGrams> {
    let mut powders: Vec<PowderGrams> = Vec::new();
    for (coat, grams) in plan.coats.iter().zip(coats) {
        for (glass, share) in &coat.blend.shares {
            let one = grams.sifted.0 * f64::from(*share) / (1.0 - plan.past_the_disc);
            let ready = one * f64::from(pieces);
            match powders.iter_mut().find(|powder| powder.glass == *glass) {
                Some(powder) => powder.ready.0 += ready,
                None => powders.push(PowderGrams { glass: (*glass).into(), ready: Grams(ready) }),
            }
        }
    }
    powders
}

fn discs(plan: &Plan, diameter: Mm, pieces: u32) -> Vec<DiscCut> {
    plan.sheets
        .iter()
        .map(|sheet| DiscCut {
            glass: sheet.glass.id.into(),
            thickness: Mm((f64::from(sheet.thickness) * 100.0).round() / 100.0),
            diameter,
            count: pieces,
        })
        .collect()
}

fn accents(plan: &Plan, seed: Seed) -> Vec<AccentCount> {
    let Some(planned) = &plan.accents else { return Vec::new() };
    let placed = place(planned, seed);
    let count = |glass: usize| placed.iter().filter(|accent| accent.glass == glass).count();
    (0..planned.glasses.len())
        .map(|i| AccentCount { glass: planned.glasses[i].0.into(), count: count(i) as u32 })
        .collect()
}
