//! What light a piece is seen in, and by whose eyes.

use super::page::light;
use super::recipe::powder_of;
use super::text::capital;
use dappledome::base::units::fixed;
use dappledome::color::dichromacy::Sight;
use dappledome::color::illuminant::Illuminant;
use dappledome::optics::told_apart::{Confused, Shows};
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;

/// Head of the slip.
pub const SEEN_IN: &str = "Seen in";
/// On the chosen light.
pub const SEEN_IN_OTHERS: &str = "Press again: seen in other lights, by other eyes";
/// Label of the lights.
pub const LIGHT_OF: &str = "Its light";
/// Label of the eyes.
pub const EYES: &str = "Eyes";
/// Under the lights.
pub const USED_TO_IT: &str = "As eyes see it that are used to that light: white stays white. Only the large picture changes; small ones, \
    tray and paper stay in daylight.";
/// Under the eyes, where there is nothing to tell.
pub const ALL_TOLD_APART: &str = "No two colors that are plain to most eyes fall together for others.";

/// A light's word; lit from within, daylight stands for the usual lamp.
pub fn illuminant(light: Light, illuminant: Illuminant) -> &'static str {
    match (illuminant, light) {
        (Illuminant::Daylight, Light::Within) => "Garden lamp",
        (Illuminant::Daylight, _) => "Daylight",
        (Illuminant::Overcast, _) => "Overcast sky",
        (Illuminant::Incandescent, _) => "Incandescent lamp",
        (Illuminant::WarmWhite, _) => "Warm white, 3000 K",
    }
}

/// A light's word where no caption stands beside it, with its spectrum.
pub fn light_seen_in(of: Light, illuminant: Illuminant) -> String {
    let spectrum = match illuminant {
        Illuminant::Daylight => return light(of).into(),
        Illuminant::Overcast => "overcast",
        Illuminant::Incandescent => "bulb",
        Illuminant::WarmWhite => "3000 K",
    };
    format!("{}, {spectrum}", light(of))
}

/// Label of what it stands in.
pub const STANDS: &str = "Stands";

/// What a dome stands in.
pub fn surroundings(around: Surroundings) -> &'static str {
    match around {
        Surroundings::Studio => "On the table",
        Surroundings::Lawn => "On a lawn",
        Surroundings::Sky => "Against the sky",
    }
}

/// Whose eyes.
pub fn sight(sight: Sight) -> &'static str {
    match sight {
        Sight::Usual => "Most",
        Sight::Protan => "Red-blind",
        Sight::Deutan => "Green-blind",
        Sight::Tritan => "Blue-blind",
    }
}

/// The caption of a picture that is not by daylight, on the table and by most eyes.
pub fn otherwise(illuminant: Illuminant, around: Surroundings, sight: Sight) -> Option<String> {
    let light = match illuminant {
        Illuminant::Daylight => None,
        Illuminant::Overcast => Some("under an overcast sky"),
        Illuminant::Incandescent => Some("by an incandescent lamp"),
        Illuminant::WarmWhite => Some("by a warm white lamp"),
    };
    let eyes = match sight {
        Sight::Usual => None,
        Sight::Protan => Some("by red-blind eyes"),
        Sight::Deutan => Some("by green-blind eyes"),
        Sight::Tritan => Some("by blue-blind eyes"),
    };
    let around = match around {
        Surroundings::Studio => None,
        Surroundings::Lawn => Some("on a lawn"),
        Surroundings::Sky => Some("against the sky"),
    };
    let how: Vec<&str> = light.into_iter().chain(around).chain(eyes).collect();
    (!how.is_empty()).then(|| format!("Seen {}.", how.join(", ")))
}

/// Two colors that some eyes hardly tell apart.
pub fn confused(recipe: &Recipe, pair: &Confused) -> String {
    let name = |shows: Shows| match shows {
        Shows::Blank => "the bare blank".to_owned(),
        Shows::Coat(id) => powder_of(recipe, id),
    };
    let [one, other] = pair.two.map(name);
    let eyes = match pair.sight {
        Sight::Usual => "most",
        Sight::Protan => "red-blind",
        Sight::Deutan => "green-blind",
        Sight::Tritan => "blue-blind",
    };
    format!(
        "{} and {other} are hard to tell apart for {eyes} eyes: {} apart, {} for most.",
        capital(&one),
        fixed(pair.apart, 0),
        fixed(pair.usually, 0)
    )
}
