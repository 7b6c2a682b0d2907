//! The plan: a recipe that has been checked from end to end, with glasses looked up and units resolved.
//! What holds a [`Plan`] need not check again; a recipe that cannot become one names every fault at once.

use super::by_hand::Rub;
use super::check::Check;
use super::checks;
use super::firing::{Programs, SlumpFiring, TackFuse};
use super::firing_checks;
use super::hand_checks;
use super::model::{Batch, FullFuse, Mold, Recipe, Side, Sponge};
use super::neighbors::{self, Touching};
use super::stem::Stem;
use super::stem_checks;
use super::strikes;
use crate::base::disc::Disc;
use crate::base::notice::Notice;
use crate::base::scalar::Bounds;

pub use super::planned::{Blend, PlannedAccents, PlannedCoat, PlannedSheet, SiftPlan};

/// A recipe that can be made.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The blank as cut.
    pub disc: Disc,
    /// The sheets, bottom to top.
    pub sheets: Vec<PlannedSheet>,
    /// The coats, in the order they are sifted.
    pub coats: Vec<PlannedCoat>,
    /// The sponge.
    pub sponge: Option<Sponge>,
    /// What is rubbed off after the sponge.
    pub sponged_off: Vec<Rub>,
    /// The full fuse.
    pub fuse: FullFuse,
    /// The accents.
    pub accents: Option<PlannedAccents>,
    /// The firing that tacks the accents on.
    pub tack: TackFuse,
    /// The mold.
    pub mold: Mold,
    /// Which face is outside.
    pub side: Side,
    /// The firing that lets it sink.
    pub slump: SlumpFiring,
    /// What carries it in a garden.
    pub stem: Option<Stem>,
    /// What of the firing programs is set.
    pub programs: Programs,
    /// Share of a sifted bed that is glass.
    pub packing: f32,
    /// Share of the powder that falls past the disc.
    pub past_the_disc: f64,
    /// How many pieces.
    pub batch: Batch,
}

/// A plan and what the maker should know about it: risks and notes, no faults.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The plan.
    pub plan: Plan,
    /// Risks and notes.
    pub notices: Vec<Notice>,
}

impl Plan {
    /// The coat of this number, if there is one.
    pub fn coat(&self, id: u32) -> Option<&PlannedCoat> {
        self.coats.iter().find(|coat| coat.sift.id == id)
    }

    /// Checks a recipe and makes a plan of it.
    ///
    /// # Errors
    /// Every fault of the recipe (and its risks and notes), if there is at least one fault.
    #[expect(clippy::new_ret_no_self, reason = "a plan comes with what the maker should know about it")]
    pub fn new(recipe: &Recipe) -> Result<Planned, Vec<Notice>> {
        let mut check = Check::default();
        checks::recipe(&mut check, recipe);
        let sheets = checks::blank(&mut check, recipe);
        let coats = checks::coats(&mut check, recipe);
        if let Some(sponge) = &recipe.sponge {
            checks::sponge(&mut check, sponge);
        }
        hand_checks::rubs(&mut check, &recipe.sponged_off);
        let accents = recipe.accents.as_ref().and_then(|a| checks::accents(&mut check, recipe, a));
        checks::slump(&mut check, recipe);
        if let Some(stem) = &recipe.stem {
            stem_checks::stem(&mut check, recipe.blank.diameter, stem);
        }
        let touching = Touching { sheets: &sheets, coats: &coats, accents: accents.as_ref() };
        neighbors::neighbors(&mut check, &touching);
        let tack = recipe.accents.as_ref().map(|accents| accents.tack).unwrap_or_default();
        strikes::strikes(&mut check, &recipe.fuse, tack, &touching);
        firing_checks::firings(&mut check, recipe);
        let notices = check.finish()?;
        let plan = Self {
            disc: Disc::new(recipe.blank.diameter),
            sheets,
            coats,
            sponge: recipe.sponge.clone(),
            sponged_off: recipe.sponged_off.clone(),
            fuse: recipe.fuse.clone(),
            accents,
            tack,
            mold: recipe.mold.clone(),
            side: recipe.powder_side,
            slump: recipe.slump,
            stem: recipe.stem,
            programs: recipe.programs.clone(),
            packing: recipe.packing as f32,
            past_the_disc: recipe.past_the_disc,
            batch: recipe.batch,
        };
        Ok(Planned { plan, notices })
    }

    /// Thickness of the stacked sheets, mm.
    pub fn blank_thickness(&self) -> f32 {
        self.sheets.iter().map(|sheet| sheet.thickness).sum()
    }

    /// The deepest that any one coat can lie, mm of loose powder.
    pub fn deepest_coat(&self) -> f32 {
        self.coats.iter().map(|coat| coat.sift.deepest()).fold(0.0, f32::at_least)
    }
}
