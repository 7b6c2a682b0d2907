//! What the parts of the area share. Photo and fit are reckoned here and not where the draft is kept: their code comes with the area.

use super::on_photo::OnPhoto;
use crate::state::tile_draft::{Draft, TileDesk, TileDraft};
use dappledome::base::notice::Notice;
use dappledome::glass::tile::Tile;
use dappledome::tiles::fit::Fitted;
use leptos::prelude::*;

/// The glass that is being made, and what comes of it.
#[derive(Clone, Copy)]
pub struct TileBench {
    /// What is written down.
    pub draft: RwSignal<Draft>,
    /// What the photo shows; none while colors are typed.
    pub on_photo: Memo<Option<OnPhoto>>,
    /// The tiles that have a color, and their places.
    pub tiles: Memo<Vec<(usize, Tile)>>,
    /// The glass that fits them; none while no tile has a color.
    pub fitted: Memo<Option<Result<Fitted, Notice>>>,
}

impl TileBench {
    /// As it was left. Takes the context of the page.
    pub fn new() -> Self {
        let TileDesk(draft) = expect_context();
        let on_photo = Memo::new(move |_| draft.with(OnPhoto::of));
        let tiles = Memo::new(move |_| {
            let colors = on_photo.with(|shown| shown.as_ref().map(OnPhoto::colors));
            draft.with(|draft| draft.seen(&colors.unwrap_or_else(|| draft.typed())))
        });
        let fitted = Memo::new(move |_| draft.with(|draft| tiles.with(|tiles| draft.fitted(tiles))));
        Self { draft, on_photo, tiles, fitted }
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
