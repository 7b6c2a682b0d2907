//! How the page is looked at: units, theme, and what needs no explaining any more. Kept in this browser; no part of any
//! piece.

use crate::dom::local;
use crate::model::theme::Theme;
use dappledome::base::shown::{Heat, Lengths, Units};
use leptos::prelude::*;

const LENGTHS: &str = "dappledome.lengths";
const HEAT: &str = "dappledome.heat";
const THEME: &str = "dappledome.frame";

const SEEDS: &str = "dappledome.seeds";

const INCHES: &str = "in";
const MILLIMETERS: &str = "mm";
const FAHRENHEIT: &str = "F";
const CELSIUS: &str = "C";
const KNOWN: &str = "known";

/// Units and theme.
#[derive(Clone, Copy, Debug, Default)]
pub struct Preferences {
    /// The units of what is shown.
    pub units: RwSignal<Units>,
    /// The frame around the table.
    pub theme: RwSignal<Theme>,
    /// Whether the maker has taken another seed before, and knows what one is.
    pub knows_seeds: RwSignal<bool>,
}

impl Preferences {
    /// As they were chosen in this browser; mm, °C and the system's frame if they were not.
    pub fn kept() -> Self {
        let units = Units {
            lengths: if local::kept(LENGTHS) == INCHES { Lengths::Inches } else { Lengths::Millimeters },
            heat: if local::kept(HEAT) == FAHRENHEIT { Heat::Fahrenheit } else { Heat::Celsius },
        };
        let kept = local::kept(THEME);
        let theme = [Theme::Light, Theme::Dark].into_iter().find(|theme| theme.key() == kept);
        Self {
            units: RwSignal::new(units),
            theme: RwSignal::new(theme.unwrap_or_default()),
            knows_seeds: RwSignal::new(local::kept(SEEDS) == KNOWN),
        }
    }

    /// Words with their lengths and temperatures in the units that the maker wants to see.
    pub fn text(&self, words: &str) -> String {
        self.units.get().text(words)
    }

    /// Another seed was taken: what it is goes without saying from now on.
    pub fn note_seeds(&self) {
        if !self.knows_seeds.get_untracked() {
            local::keep(SEEDS, KNOWN);
            self.knows_seeds.set(true);
        }
    }

    /// Shows lengths in another unit.
    pub fn choose_lengths(&self, lengths: Lengths) {
        local::keep(LENGTHS, if lengths == Lengths::Inches { INCHES } else { MILLIMETERS });
        self.units.update(|units| units.lengths = lengths);
    }

    /// Shows temperatures in another unit.
    pub fn choose_heat(&self, heat: Heat) {
        local::keep(HEAT, if heat == Heat::Fahrenheit { FAHRENHEIT } else { CELSIUS });
        self.units.update(|units| units.heat = heat);
    }

    /// Puts another frame around the table.
    pub fn choose_theme(&self, theme: Theme) {
        local::keep(THEME, theme.key());
        self.theme.set(theme);
    }
}
