//! What the parts of the area share. The fit is made here and not where the draft is kept: its code comes with the area.

use crate::state::tile_draft::{Draft, TileDesk, TileDraft};
use dappledome::base::notice::Notice;
use dappledome::tiles::fit::Fitted;
use leptos::prelude::*;

/// The glass that is being made, and what comes of it.
#[derive(Clone, Copy)]
pub struct TileBench {
    /// What is written down.
    pub draft: RwSignal<Draft>,
    /// The glass that fits it; none while no tile has a color.
    pub fitted: Memo<Option<Result<Fitted, Notice>>>,
}

impl TileBench {
    /// As it was left. Takes the context of the page.
    pub fn new() -> Self {
        let TileDesk(draft) = expect_context();
        Self { draft, fitted: Memo::new(move |_| draft.with(Draft::fitted)) }
    }

    /// Changes a tile.
    pub fn change(&self, at: usize, change: impl FnOnce(&mut TileDraft)) {
        self.draft.update(|draft| {
            if let Some(tile) = draft.tiles.get_mut(at) {
                change(tile);
            }
        });
    }
}
