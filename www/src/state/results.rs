//! What was computed from the piece.

use dappledome::base::seed::Seed;
use dappledome::kiln::data::Kiln;
use dappledome::picture::view::Light;
use dappledome::preview::{Point, Sampled};
use dappledome::recipe::Recipe;
use dappledome::shop::sisters::Features;
use dappledome::shop::ticket::Ticket;
use dappledome::tiles::places::HowSure;
use leptos::prelude::*;
use std::collections::HashMap;

/// What pictures and the ticket show: a recipe, a seed and a light, and for the hours a kiln.
#[derive(Clone, Debug, PartialEq)]
pub struct Rested {
    /// The recipe.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// The light.
    pub light: Light,
    /// The kiln of the ticket.
    pub kiln: Kiln,
}

/// What was computed from the piece.
#[derive(Clone, Copy, Debug)]
pub struct Results {
    /// The numbers, once computed.
    pub ticket: RwSignal<Option<Ticket>>,
    /// How sure its fired colors are, once computed.
    pub how_sure: RwSignal<Option<HowSure>>,
    /// Where a core sample is taken while its panel lies there.
    pub sample_point: RwSignal<Point>,
    /// The core sample, once taken.
    pub sample: RwSignal<Option<Sampled>>,
    /// What thumbnails and ticket show, once all of it has come and nothing is under way.
    pub rested: RwSignal<Option<Rested>>,
    /// The numbers of the options on the shortlist, each as it was kept.
    pub option_tickets: RwSignal<HashMap<Seed, Ticket>>,
    /// What tells each drawn sister from the others.
    pub features: RwSignal<HashMap<Seed, Features>>,
    /// The same of layouts of the open order that are being compared, by their line.
    pub compared: RwSignal<HashMap<(usize, Seed), Features>>,
}

impl Results {
    /// Nothing computed yet.
    pub fn new() -> Self {
        Self {
            ticket: RwSignal::new(None),
            how_sure: RwSignal::new(None),
            sample_point: RwSignal::new(Point::Place(0.0, 0.0)),
            sample: RwSignal::new(None),
            rested: RwSignal::new(None),
            option_tickets: RwSignal::new(HashMap::new()),
            features: RwSignal::new(HashMap::new()),
            compared: RwSignal::new(HashMap::new()),
        }
    }

    /// What is known of a sister.
    pub fn features_of(&self, seed: Seed) -> Option<Features> {
        self.features.read().get(&seed).cloned()
    }

    /// Whether a sister is drawn.
    pub fn is_drawn(&self, seed: Seed) -> bool {
        self.features.read().contains_key(&seed)
    }
}
