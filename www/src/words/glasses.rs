//! The glasses on the shelf in words.

use super::orders::counted;
use super::tiles::{how_sure, plus_minus};
use dappledome::base::notice::Notice;
use dappledome::base::units::fixed;
use dappledome::glass::kind::{Family, Glass, Source};
use dappledome::tiles::ladder::Base;
use dappledome::tiles::sureness::Sureness;

/// The section.
pub const GLASSES_ON_SHELF: &str = "Glasses";
/// No glass of the maker's own yet.
pub const NO_OWN_GLASSES: &str =
    "No glasses of your own. Those below are invented: fire one tile, or copy one to change it.";
/// Above those of the catalogue.
pub const INVENTED_GLASSES: &str = "Invented, to try layouts with";
/// Above those of the catalogue that somebody measured.
pub const MEASURED_GLASSES: &str = "Measured window glass";
/// Above those that are not offered any more.
pub const RETIRED: &str = "Retired";
/// What the file of one's glasses is called.
pub const SHELF_FILE: &str = "glasses.json";
/// Saves them as a file.
pub const GLASSES_AS_FILE: &str = "Your glasses as a file";
/// Names it.
pub const NAME_OF_GLASS: &str = "Name of the glass";
/// Makes one's own of it.
pub const COPY_GLASS: &str = "Copy";
/// Lets it rest.
pub const RETIRE: &str = "Retire";
/// Has it again among those to choose.
pub const OFFER_AGAIN: &str = "Offer it again";
/// Away with it.
pub const TAKE_OFF_SHELF: &str = "Take it off the shelf";
/// Into the open coat.
pub const PUT_IN_OPEN_COAT: &str = "Put it in the open coat";
/// Into a coat of its own.
pub const PUT_IN_NEW_COAT: &str = "Put it in a coat";
/// What does not change.
pub const KEEPS_ITS_GLASS: &str = "A saved piece keeps the glass it was saved with.";
/// A number of a glass.
pub const GRAIN: &str = "Grain, by sieve";
/// A number of a glass.
pub const SPOON_HOLDS: &str = "A level 5 mL spoon";
/// A number of a glass.
pub const DENSITY: &str = "Density, g/cm³";
/// A number of a glass.
pub const EXPANSION: &str = "Expansion, ppm/K";
/// A number of a glass.
pub const SOFTENING_POINT: &str = "Softening point";
/// A number of a glass.
pub const ANNEALING_POINT: &str = "Annealing point";
/// A number of a glass.
pub const MILKINESS: &str = "Milkiness, per mm";
/// A number of a jar.
pub const ON_HAND_GRAMS: &str = "On hand";
/// A number of a jar.
pub const HUNDRED_GRAMS_COST: &str = "100 g cost";
/// What colors it.
pub const COLORED_BY: &str = "Colored by";
/// Whether it strikes.
pub const STRIKES: &str = "Strikes";
/// It does.
pub const STRIKES_WHEN_HOT: &str = "only when held hot";

/// What colors a glass, in words.
pub const FAMILIES: [(Family, &str); 5] = [
    (Family::Iron, "iron"),
    (Family::Sulfur, "sulfur or selenium"),
    (Family::Copper, "copper"),
    (Family::Lead, "lead"),
    (Family::Silver, "silver"),
];

/// The name of a copy.
pub fn copy_of(name: &str) -> String {
    let short: String = name.chars().take(33).collect();
    format!("{short}, mine")
}

/// Under a disc: how it is known and how much is on hand.
pub fn glass_in_short(glass: &Glass, on_hand: Option<f64>) -> String {
    let known = match &glass.source {
        Source::Invented => "invented".to_owned(),
        Source::Measured { .. } => "measured".to_owned(),
        Source::Tiles(_) => plus_minus(&Sureness::of(glass)).unwrap_or_default(),
    };
    on_hand.map_or_else(|| known.clone(), |grams| format!("{known}, {} g", fixed(grams, 0)))
}

/// What a glass is: `powder, transparent`.
pub fn kind_of_glass(glass: &Glass) -> String {
    let form = match (glass.sheet, glass.powder) {
        (true, true) => "sheet and powder",
        (true, false) => "sheet",
        _ => "powder",
    };
    let clear = if glass.material.scatters() { "opal" } else { "transparent" };
    format!("{form}, {clear}")
}

/// How the color of a glass is known.
pub fn known_from(glass: &Glass) -> String {
    match &glass.source {
        Source::Invented => "Invented: nobody measured it, so nobody knows how near your jar comes.".into(),
        Source::Measured { published } => format!("Measured: {published}."),
        Source::Tiles(tiles) => {
            let many = counted(tiles.len() as i64, "fired tile");
            format!("Fitted to {many}. {}", how_sure(&Sureness::of(glass)))
        }
    }
}

/// What a ladder lies on.
pub fn ladder_base(base: Base) -> &'static str {
    match base {
        Base::White => "on white",
        Base::Clear => "in clear, lit",
        Base::Black => "on black",
    }
}

/// A ladder, to those who do not see it.
pub fn ladder_said(base: Base) -> String {
    format!("Fired color {}, from 0.03 to 3 mm sifted", ladder_base(base))
}

/// It was taken off.
pub fn glass_taken_off(name: &str) -> String {
    format!("{name} is off the shelf.")
}

/// It is in the piece now.
pub fn glass_put_in(name: &str) -> String {
    format!("{name} is in the piece.")
}

/// A file of glasses came in; what of it is kept unread is said behind that.
pub fn glasses_came(new: usize, unread: Option<&Notice>) -> String {
    let came = match new {
        0 => "All its glasses are on the shelf already.".into(),
        1 => "One glass came onto the shelf.".into(),
        many => format!("{many} glasses came onto the shelf."),
    };
    unread.map_or_else(|| came.clone(), |unread| format!("{came} {}", unread.what))
}

/// A file of glasses that does not go with those that are there.
pub const GLASSES_REFUSED: &str = "Not put on the shelf.";
