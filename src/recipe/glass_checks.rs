//! What is wrong with the glasses that a recipe carries along, or that a maker writes down.

use super::check::Check;
use super::limits;
use crate::base::notice::Step;
use crate::color::spectrum::Spectrum;
use crate::glass::catalogue;
use crate::glass::glasses::Glasses;
use crate::glass::kind::{Glass, Source};
use crate::glass::viscosity::Viscosity;

const STEP: Step = Step::Recipe;

/// Checks own glasses, each and all together.
pub(super) fn glasses(check: &mut Check, glasses: &Glasses) {
    if glasses.0.len() > limits::MOST_GLASSES {
        let why = format!("It brings {} glasses along.", glasses.0.len());
        check.fault(STEP, "Too many glasses.", why, format!("Bring at most {}.", limits::MOST_GLASSES));
        return;
    }
    for (at, one) in glasses.0.iter().enumerate() {
        if glasses.0[..at].iter().any(|other| other.id == one.id) {
            let why =
                format!("Two glasses are both \"{}\", so a coat cannot say which it means.", short(&one.id));
            check.fault(STEP, "Two glasses with one id.", why, "Give one of them another id.");
        }
        glass(check, one);
    }
}

/// Checks one own glass.
fn glass(check: &mut Check, glass: &Glass) {
    let named = |text: &str, most: usize| !text.trim().is_empty() && text.chars().count() <= most;
    if !named(&glass.id, limits::MOST_GLASS_ID) || !named(&glass.name, limits::MOST_GLASS_NAME) {
        let why =
            format!("A glass is called \"{}\", its id is \"{}\".", short(&glass.name), short(&glass.id));
        let remedy = format!("Give it a name of at most {} letters.", limits::MOST_GLASS_NAME);
        check.fault(STEP, "A glass without a name, or with a very long one.", why, remedy);
    }
    if catalogue::find(&glass.id).is_some() {
        let why =
            format!("\"{}\" is a glass of the catalogue, which is the same for everybody.", short(&glass.id));
        check.fault(STEP, "An id that is taken.", why, "Give your glass an id of its own.");
    }
    let of = |what: &str| format!("{what} of {}", short(&glass.name));
    let optics = spectrum(&glass.material.absorption, limits::MOST_ABSORPTION)
        && spectrum(&glass.material.scatter, limits::MOST_SCATTER);
    if !optics {
        let why = format!(
            "Per mm, {} absorbs or scatters less than nothing, or more than any glass: at most {} and {}.",
            short(&glass.name),
            limits::MOST_ABSORPTION,
            limits::MOST_SCATTER
        );
        check.fault(STEP, "Optics of no glass.", why, "Fit it from its tile again.");
    }
    if let Source::Tiles(tiles) = &glass.source
        && tiles.len() > limits::MOST_TILES
    {
        let why = format!("{} is made of {} tiles.", short(&glass.name), tiles.len());
        check.fault(STEP, "Too many tiles.", why, format!("Use at most {}.", limits::MOST_TILES));
    }
    check.range(STEP, &of("The milkiness"), glass.milkiness, limits::MILKINESS, "per mm");
    check.length(STEP, &of("The grain"), glass.grain, limits::GRAIN);
    check.range(STEP, &of("The density"), glass.density, limits::DENSITY, "g/cm³");
    check.range(STEP, &of("The expansion"), glass.expansion, limits::EXPANSION, "ppm/K");
    if let Some(packing) = glass.packing {
        check.share(STEP, &of("The glass in a heap"), packing, limits::PACKING);
    }
    let heat = check.range(STEP, &of("The softening point"), glass.softening.0, limits::SOFTENING, "°C")
        & check.range(STEP, &of("The annealing point"), glass.annealing.0, limits::ANNEALING, "°C");
    if heat && let Err(fault) = Viscosity::new(glass.softening, glass.annealing) {
        let [what, why, remedy] = fault.said();
        check.fault(STEP, what, format!("{}: {why}", short(&glass.name)), remedy);
    }
}

fn spectrum(spectrum: &Spectrum, most: f32) -> bool {
    spectrum.iter().all(|value| (0.0..=most).contains(value))
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}
