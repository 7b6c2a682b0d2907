//! The color that is looked for, for which coat and among what. It stays as it is while the maker is elsewhere.

use super::nav::Nav;
use super::workpiece::Workpiece;
use crate::model::ids::AreaId;
use dappledome::color::difference::Lab;
use dappledome::worker::asked::SeenOn;
use leptos::prelude::*;

/// What is looked for.
#[derive(Clone, Copy)]
pub struct Finding {
    /// For the coat with this id.
    pub coat: RwSignal<u32>,
    /// The color; none before one is written down.
    pub wanted: RwSignal<Option<Lab>>,
    /// What it is looked at on.
    pub seen: RwSignal<SeenOn>,
    /// Whether among the maker's own glasses alone.
    pub own_only: RwSignal<bool>,
    /// Whether two jars may be taken.
    pub two: RwSignal<bool>,
}

impl Finding {
    /// No color yet.
    pub fn new() -> Self {
        Self {
            coat: RwSignal::new(0),
            wanted: RwSignal::new(None),
            seen: RwSignal::new(SeenOn::Coat),
            own_only: RwSignal::new(false),
            two: RwSignal::new(true),
        }
    }

    /// Looks for one for this coat: lays the area on the table, with nothing tried yet.
    pub fn open(&self, coat: u32, piece: Workpiece, nav: Nav) {
        self.coat.set(coat);
        piece.trial.set(None);
        nav.open_area(AreaId::FIND);
    }
}
