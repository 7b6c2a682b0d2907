//! The paper of the open order: which sheets, of what size, and what stands on them.

use super::nav::Nav;
use crate::model::ids::AreaId;
use dappledome::paper::kind::Kind;
use dappledome::paper::sheet::{PaperSize, Sheet};
use leptos::prelude::*;
use std::sync::Arc;

/// The paper of the open order.
#[derive(Clone, Copy, Debug)]
pub struct OrderPaper {
    /// Which sheets.
    pub kind: RwSignal<Kind>,
    /// The size of the paper.
    pub size: RwSignal<PaperSize>,
    /// The sheets with their kind, as they were last laid out; none before.
    pub sheets: RwSignal<Option<(Kind, Arc<Vec<Sheet>>)>>,
    nav: Nav,
}

impl OrderPaper {
    /// Nothing laid out yet, on paper of the size that is usual here.
    pub fn new(nav: Nav, size: PaperSize) -> Self {
        Self {
            kind: RwSignal::new(Kind::MakeSheet),
            size: RwSignal::new(size),
            sheets: RwSignal::new(None),
            nav,
        }
    }

    /// Puts sheets of a kind on the table.
    pub fn open(&self, kind: Kind) {
        self.kind.set(kind);
        self.nav.open_area(AreaId::ORDER_PAPER);
    }

    /// Takes sheets that were laid out.
    pub fn take(&self, sheets: Vec<Sheet>) {
        self.sheets.set(Some((self.kind.get_untracked(), Arc::new(sheets))));
    }
}
