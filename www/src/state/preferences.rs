//! How the page is looked at: units and theme. Kept in this browser; no part of any piece.

use crate::dom::local;
use crate::model::theme::Theme;
use dappledome::base::shown::{Heat, Lengths, Units};
use leptos::prelude::*;

const LENGTHS: &str = "dappledome.lengths";
const HEAT: &str = "dappledome.heat";
const THEME: &str = "dappledome.frame";

const INCHES: &str = "in";
const MILLIMETERS: &str = "mm";
const FAHRENHEIT: &str = "F";
const CELSIUS: &str = "C";

/// Units and theme.
#[derive(Clone, Copy, Debug)]
pub struct Preferences {
    /// The units of what is shown.
    pub units: RwSignal<Units>,
    /// The frame around the table.
    pub theme: RwSignal<Theme>,
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
        Self { units: RwSignal::new(units), theme: RwSignal::new(theme.unwrap_or_default()) }
    }

    /// Words with their lengths and temperatures in the units that the maker wants to see.
    pub fn text(&self, words: &str) -> String {
        self.units.get().text(words)
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
