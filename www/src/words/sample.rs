//! The core sample in words.

use super::recipe::powder_of;
use dappledome::base::shown::Units;
use dappledome::base::units::Mm;
use dappledome::optics::sample::{Sample, SampleLayer, What};
use dappledome::recipe::Recipe;

/// Head of the slip.
pub const CORE_SAMPLE: &str = "Core sample";
/// Before the first one has come.
pub const TAKING_A_SAMPLE: &str = "Reading the layers…";
/// Column: thickness in the finished glass.
pub const FUSED: &str = "fused";
/// Column: depth of the loose powder.
pub const AS_SIFTED: &str = "as sifted";
/// Column: color by itself.
pub const ALONE: &str = "alone";
/// Column: color on what lies under it.
pub const IN_PLACE: &str = "in place";
/// Under the section.
pub const SECTION_SCALE: &str = "Outermost first. Powder drawn × 40, sheets cut short.";
/// Powder of several coats that the sponge put back.
pub const MIXTURE: &str = "Put back by the sponge";

/// What a layer of a piece of this recipe is.
pub fn layer(recipe: &Recipe, what: What) -> String {
    match what {
        What::Sheet(at) => {
            recipe.blank.sheets.get(at).map_or_else(String::new, |sheet| recipe.glasses.name(&sheet.glass))
        }
        What::Coat(id) => powder_of(recipe, id),
        What::PutBack => MIXTURE.into(),
    }
}

/// A thickness to a hundredth of a mm.
pub fn thin(mm: Mm, units: Units) -> String {
    units.say_length(mm.0, 2)
}

/// Where the sample was taken, and how thick the glass is there.
pub fn sample_place(sample: &Sample, units: Units) -> String {
    let from_crown = units.say_length(sample.from_crown().0, 0);
    format!("{from_crown} from the crown, {} through", thin(sample.through(), units))
}

/// The sample in one sentence, for those who do not see it.
pub fn sample_said(recipe: &Recipe, sample: &Sample, units: Units) -> String {
    let layer = |one: &SampleLayer| format!("{} {}", layer(recipe, one.what), thin(one.fused, units));
    let layers: Vec<String> = sample.layers.iter().map(layer).collect();
    format!("{}: {}.", sample_place(sample, units), layers.join(", "))
}
