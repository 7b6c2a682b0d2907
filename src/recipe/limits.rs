//! How far each number of a recipe may go: the rules on the page and the checks of the plan read the same list.

use crate::base::units::plain;
use crate::glass::kind;

/// The range of one number, in the unit it is shown in, with its step and its usual value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// One step of a rule.
    pub step: f64,
    /// What it usually is.
    pub usual: f64,
    /// Whether its rule is divided by ratio rather than by difference.
    pub by_ratio: bool,
}

impl Limit {
    /// Whether a value is a number within the range.
    pub fn holds(&self, value: f64) -> bool {
        value >= self.least && value <= self.most
    }
}

impl Limit {
    /// The range in words: `0.03 to 3 mm`.
    pub fn in_words(&self, unit: &str) -> String {
        format!("{} to {} {unit}", plain(self.least), plain(self.most)).trim_end().into()
    }
}

const fn even(least: f64, most: f64, step: f64, usual: f64) -> Limit {
    Limit { least, most, step, usual, by_ratio: false }
}

const fn ratio(least: f64, most: f64, step: f64, usual: f64) -> Limit {
    Limit { least, most, step, usual, by_ratio: true }
}

/// Most sheets in a blank.
pub const MOST_SHEETS: usize = 4;
/// Most coats in a recipe.
pub const MOST_COATS: usize = 12;
/// Most glasses in a blend or among the accents.
pub const MOST_PARTS: usize = 6;
/// Most patches of a coat, or accents, that are moved by hand.
pub const MOST_MOVED: usize = 64;
/// Most patches of a coat, or accents, that are added by hand.
pub const MOST_ADDED: usize = 64;
/// Most accents that are taken off by hand.
pub const MOST_TAKEN_OFF: usize = 80;
/// Most rubs with the corner of the sponge.
pub const MOST_RUBS: usize = 200;
/// Most places in the path of one rub.
pub const MOST_RUB_PLACES: usize = 400;
/// Most places in the paths of all rubs: what keeps the fullest recipe short enough to be read as a file.
pub const MOST_PLACES_RUBBED: usize = 8000;
/// Most area that all rubs pass over, each stretch of a path counted for itself, mm²: what bounds the time they take.
pub const MOST_RUBBED: f64 = 4e7;
/// Most glasses that a recipe brings along.
pub const MOST_GLASSES: usize = 64;
/// Most test tiles that a glass is fitted to.
pub const MOST_TILES: usize = 30;
/// Most letters in the id of a glass.
pub const MOST_GLASS_ID: usize = 40;
/// Most letters in the name of a glass.
pub const MOST_GLASS_NAME: usize = 40;
/// Most that a glass absorbs per mm (natural logarithm): beyond it a speck of dust is black.
pub const MOST_ABSORPTION: f32 = 400.0;
/// Most that a glass scatters back per mm (Kubelka-Munk S): beyond it a film is a white paint.
pub const MOST_SCATTER: f32 = 100.0;
/// Most segments that one program sets: each once.
pub const MOST_SEGMENTS: usize = 8;
/// Most letters in a title.
pub const MOST_TITLE: usize = 80;

/// Diameter of the disc, mm.
pub const DISC: Limit = even(50.0, 400.0, 1.0, 160.0);
/// Thickness of a sheet, mm.
pub const SHEET: Limit = even(1.0, 10.0, 0.1, 3.0);
/// Parts of one glass.
pub const PARTS: Limit = even(0.0, 20.0, 0.5, 1.0);
/// Depth of an even coat, mm.
pub const EVEN_DEPTH: Limit = ratio(0.03, 3.0, 0.01, 0.26);
/// Depth of patches, mm.
pub const PATCH_DEPTH: Limit = ratio(0.03, 3.0, 0.01, 0.45);
/// Bare rim, mm.
pub const BARE_RIM: Limit = even(0.0, 15.0, 0.1, 1.2);
/// Raggedness of the bare rim, mm.
pub const BARE_RIM_RAGGEDNESS: Limit = even(0.0, 3.0, 0.05, 0.35);
/// Unevenness of an even coat, share.
pub const UNEVENNESS: Limit = even(0.0, 0.40, 0.01, 0.16);
/// Unevenness of patches, share.
pub const PATCH_UNEVENNESS: Limit = even(0.0, 0.40, 0.01, 0.18);
/// Turn of a layout, degrees.
pub const TURNED: Limit = even(0.0, 359.0, 1.0, 0.0);
/// Nudge of a layout, mm.
pub const MOVED: Limit = even(-80.0, 80.0, 0.5, 0.0);
/// A place or a way in a layout or on the disc, mm: the widest disc's reach.
pub const PLACE: Limit = even(-400.0, 400.0, 0.1, 0.0);
/// Width of an added patch, mm.
pub const ADDED_ACROSS: Limit = ratio(2.0, 120.0, 1.0, 20.0);
/// Width of a rub, mm.
pub const RUB_WIDTH: Limit = ratio(1.0, 60.0, 0.5, 8.0);
/// Coverage of patches, share.
pub const COVERAGE: Limit = even(0.0, 0.80, 0.01, 0.34);
/// Size of patches, mm.
pub const PATCH_SIZE: Limit = ratio(5.0, 80.0, 1.0, 26.0);
/// Raggedness of patches, mm.
pub const PATCH_RAGGEDNESS: Limit = even(0.0, 4.0, 0.1, 1.8);
/// Soft edge of patches, mm.
pub const SOFT_EDGE: Limit = even(0.0, 5.0, 0.1, 1.0);
/// Thin margin of patches, mm.
pub const THIN_MARGIN: Limit = even(0.0, 15.0, 0.5, 5.0);
/// Share of the depth left at a patch's edge.
pub const MARGIN_LEFT: Limit = even(0.10, 1.0, 0.05, 0.45);
/// Stray dust, share of the depth.
pub const STRAY_DUST: Limit = even(0.0, 0.20, 0.01, 0.04);
/// Reach of the stray dust, mm.
pub const STRAY_REACH: Limit = even(0.0, 10.0, 0.5, 2.5);
/// Pull of patches toward the crown (-1) or the rim (1).
pub const TOWARD_RIM: Limit = even(-1.0, 1.0, 0.05, 0.0);
/// Thinnest film of a thick-and-thin coat, mm.
pub const THINNEST: Limit = ratio(0.02, 1.0, 0.01, 0.05);
/// Thickest heap of a thick-and-thin coat, mm.
pub const THICKEST: Limit = ratio(0.2, 3.0, 0.05, 2.0);
/// Size of blotches, mm.
pub const BLOTCH_SIZE: Limit = even(15.0, 120.0, 1.0, 53.0);
/// Whether a thick-and-thin coat is mostly thin.
pub const MOSTLY_THIN: Limit = ratio(0.5, 2.0, 0.05, 1.0);
/// Raggedness of blotches, mm.
pub const BLOTCH_RAGGEDNESS: Limit = even(0.0, 8.0, 0.5, 4.0);
/// What one touch of the sponge lifts, mm.
pub const LIFT: Limit = even(0.02, 0.30, 0.01, 0.16);
/// Passes of the sponge over the disc.
pub const PASSES: Limit = even(0.0, 5.0, 0.1, 2.0);
/// How far the press closes the pores.
pub const PRESS: Limit = even(0.0, 0.6, 0.01, 0.45);
/// Widest pores, mm.
pub const PORES: Limit = even(1.0, 10.0, 0.2, 5.2);
/// Foot of a roll, mm.
pub const ROLL: Limit = even(16.0, 60.0, 1.0, 26.0);
/// Presses in a roll.
pub const PRESSES: Limit = even(1.0, 5.0, 1.0, 3.0);
/// Share put back at each touch.
pub const PUTS_BACK: Limit = even(0.0, 0.5, 0.01, 0.15);
/// Share that stays on after brushing.
pub const STAYS_ON: Limit = even(0.0, 1.0, 0.05, 0.1);
/// Rolls between dips.
pub const REWET: Limit = even(1.0, 40.0, 1.0, 12.0);
/// Twist between rolls, degrees.
pub const TWIST: Limit = even(0.0, 90.0, 5.0, 20.0);
/// Top of the full fuse, °C.
pub const FUSE_TOP: Limit = even(740.0, 840.0, 1.0, 790.0);
/// Hold of the full fuse, minutes.
pub const FUSE_HOLD: Limit = even(0.0, 60.0, 1.0, 10.0);
/// Top of the tack fuse, °C.
pub const TACK_TOP: Limit = even(700.0, 780.0, 1.0, 735.0);
/// Hold of the tack fuse, minutes.
pub const TACK_HOLD: Limit = even(0.0, 40.0, 1.0, 8.0);
/// Top of the slump, °C.
pub const SLUMP_TOP: Limit = even(580.0, 700.0, 1.0, 640.0);
/// Hold of the slump, minutes; usually as long as it takes.
pub const SLUMP_HOLD: Limit = even(0.0, 120.0, 1.0, 15.0);
/// Rate of a segment, K/h.
pub const RATE: Limit = ratio(5.0, 1000.0, 5.0, 150.0);
/// Where a segment ends, °C: above any room, below what a kiln for glass is asked.
pub const SEGMENT_TO: Limit = even(40.0, 900.0, 1.0, 510.0);
/// Hold of a segment, minutes.
pub const SEGMENT_HOLD: Limit = even(0.0, 600.0, 1.0, 30.0);
/// Below which a kiln may be opened, °C.
pub const OPEN_BELOW: Limit = even(40.0, 100.0, 5.0, 60.0);
/// Sieves of the accents' grade, mm.
pub const GRADE: Limit = even(0.5, 8.0, 0.1, 3.0);
/// Number of accents.
pub const ACCENTS: Limit = even(0.0, 80.0, 1.0, 26.0);
/// Spacing of accents, mm.
pub const SPACING: Limit = even(2.0, 200.0, 0.5, 17.0);
/// Distance of the accents from the rim, mm.
pub const FROM_RIM: Limit = even(0.0, 40.0, 0.5, 10.0);
/// Width of the accents' band, mm.
pub const BAND: Limit = even(0.0, 40.0, 0.5, 3.0);
/// Least gap between accents, mm.
pub const LEAST_GAP: Limit = even(0.0, 30.0, 0.5, 7.0);
/// Looseness of the accents' spacing.
pub const LOOSENESS: Limit = even(0.0, 1.0, 0.05, 0.5);
/// Opening of the mold, mm.
pub const OPENING: Limit = even(50.0, 400.0, 1.0, 160.0);
/// Depth of the mold, mm.
pub const DEPTH: Limit = even(5.0, 150.0, 0.5, 48.0);
/// Bottom of a mold that has one, mm.
pub const BOTTOM: Limit = even(0.0, 390.0, 1.0, 80.0);
/// Corner radius of a mold that has one, mm.
pub const CORNER: Limit = even(0.0, 100.0, 1.0, 25.0);
/// Length of a stem's pipe above the ground, mm.
pub const STEM_LENGTH: Limit = even(100.0, 2500.0, 50.0, 900.0);
/// Length of a stem's pipe in the ground, mm.
pub const STEM_IN_GROUND: Limit = even(0.0, 1000.0, 10.0, 400.0);
/// Leg of the fillet of silicone around a stopper, mm.
pub const FILLET: Limit = even(2.0, 10.0, 0.5, 5.0);
/// Dabs of silicone on a stopper.
pub const DABS: Limit = even(3.0, 12.0, 1.0, 6.0);
/// Width of a dab of silicone, mm.
pub const DAB_ACROSS: Limit = even(3.0, 12.0, 0.5, 6.0);
/// Molds of one kind that a maker has.
pub const MOLDS: Limit = even(1.0, 200.0, 1.0, 1.0);
/// Grams of powder on a test tile.
pub const TILE_GRAMS: Limit = ratio(0.01, 100.0, 0.01, 0.54);
/// Area of the powder on a test tile, cm².
pub const TILE_AREA: Limit = ratio(1.0, 1000.0, 1.0, 32.0);
/// Depth of the powder on a test tile, mm.
pub const TILE_DEPTH: Limit = ratio(0.03, 3.0, 0.01, 0.45);
/// How bright the bare white of a test tile looks, of a perfect white.
pub const WHITE_LOOKS: Limit = even(0.5, 1.0, 0.01, 0.84);
/// How bright the white in a photo is, of a perfect white: common printing paper is about 0.86 (common practice, no source).
pub const PHOTO_WHITE: Limit = even(0.5, 1.0, 0.01, 0.86);
/// Back-scatter per mm of an opal, as its maker takes it to be.
pub const MILKINESS_OF_OPAL: Limit = even(0.0, 20.0, 0.1, 0.0);
/// Back-scatter per mm that bubbles add to a fired powder.
pub const MILKINESS: Limit = even(0.0, 2.0, 0.01, 0.0);
/// Mean grain of a powder by sieve, mm.
pub const GRAIN: Limit = ratio(0.02, 0.5, 0.01, kind::GRAIN.0);
/// Density of a glass, g/cm³.
pub const DENSITY: Limit = even(2.0, 6.0, 0.1, kind::DENSITY);
/// Thermal expansion of a glass, 1e-6/K.
pub const EXPANSION: Limit = even(3.0, 13.0, 0.1, kind::EXPANSION);
/// Softening point of a glass, °C.
pub const SOFTENING: Limit = even(450.0, 850.0, 5.0, kind::SOFTENING.0);
/// Annealing point of a glass, °C.
pub const ANNEALING: Limit = even(350.0, 650.0, 5.0, kind::ANNEALING.0);
/// Share of a sifted bed that is glass.
pub const PACKING: Limit = even(0.32, 0.60, 0.008, 0.45);
/// Share that falls past the disc.
pub const PAST_THE_DISC: Limit = even(0.0, 0.5, 0.01, 0.15);
/// Pieces in a batch.
pub const PIECES: Limit = even(1.0, 200.0, 1.0, 1.0);
/// Spare pieces per ten.
pub const SPARE: Limit = even(0.0, 5.0, 1.0, 0.0);

/// The deepest a coat lies anywhere, as a multiple of its depth: the hand's wobble is cut off there.
pub const MOST_UNEVEN: f32 = 2.0;
/// The thinnest, likewise.
pub const LEAST_UNEVEN: f32 = 0.3;
/// Thickness of a stack that about keeps its size in a full fuse, mm: common practice, no source.
pub const KEEPS_ITS_SIZE: (f64, f64) = (5.0, 8.0);
