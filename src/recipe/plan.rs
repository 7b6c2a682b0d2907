//! The plan: a recipe that has been checked from end to end, with glasses looked up and units resolved.
//! What holds a [`Plan`] need not check again; a recipe that cannot become one names every fault at once.

use super::by_hand::{AccentLayout, Rub};
use super::check::Check;
use super::checks;
use super::hand_checks;
use super::limits;
use super::model::{Batch, Fall, Layout, Mold, Recipe, Side, Sponge};
use crate::base::disc::Disc;
use crate::base::notice::Notice;
use crate::base::scalar::Bounds;
use crate::base::units::Mm;
use crate::glass::catalogue::Glass;
use crate::glass::material::Material;

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
    /// The accents.
    pub accents: Option<PlannedAccents>,
    /// The mold.
    pub mold: Mold,
    /// Which face is outside.
    pub side: Side,
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

/// One disc of sheet glass.
#[derive(Clone, Debug)]
pub struct PlannedSheet {
    /// The glass.
    pub glass: &'static Glass,
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
    /// Glass ids and their shares, which add up to 1; no share is zero.
    pub shares: Vec<(&'static str, f32)>,
    /// What the blend is optically, fired.
    pub material: Material,
    /// Grain as light sees it, mm.
    pub grain: f32,
    /// Grain by the sieve, mm.
    pub sieve: f32,
}

/// The accents with their number settled.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedAccents {
    /// Each glass with its share of the pieces.
    pub glasses: Vec<(&'static str, f32)>,
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

impl Plan {
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
        let notices = check.finish()?;
        let plan = Self {
            disc: Disc::new(recipe.blank.diameter),
            sheets,
            coats,
            sponge: recipe.sponge.clone(),
            sponged_off: recipe.sponged_off.clone(),
            accents,
            mold: recipe.mold.clone(),
            side: recipe.powder_side,
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

impl SiftPlan {
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
