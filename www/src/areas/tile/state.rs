//! What the parts of the area share. Photo and fit are reckoned here and not where the draft is kept: their code comes with the area. Each
//! is a task of its own, so that no frame that is dragged waits for both.

use super::on_photo::OnPhoto;
use crate::dom::timer::a_task_later;
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
        let TileDesk { draft, .. } = expect_context();
        let shown = a_task_later(move || draft.track(), move || draft.with(OnPhoto::of));
        let on_photo = Memo::new(move |_| shown.get().flatten());
        let reads = move || {
            draft.track();
            on_photo.track();
        };
        let reckoned = a_task_later(reads, move || {
            on_photo.with(|shown| draft.with(|draft| reckoned(draft, shown.as_ref())))
        });
        let tiles = Memo::new(move |_| {
            reckoned.with(|both| both.as_ref().map(|both| both.0.clone())).unwrap_or_default()
        });
        let fitted = Memo::new(move |_| reckoned.with(|both| both.as_ref().and_then(|both| both.1.clone())));
        Self { draft, on_photo, tiles, fitted }
    }

    /// Tiles and glass by what is written down now: what is shown may lag a task or two behind.
    pub fn at_once(&self) -> Reckoned {
        self.draft.with_untracked(|draft| reckoned(draft, OnPhoto::of(draft).as_ref()))
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

/// The tiles that have a color, their places, and the glass that fits them; none while no tile has a color.
pub type Reckoned = (Vec<(usize, Tile)>, Option<Result<Fitted, Notice>>);

fn reckoned(draft: &Draft, shown: Option<&OnPhoto>) -> Reckoned {
    let tiles = draft.seen(&shown.map_or_else(|| draft.typed(), OnPhoto::colors));
    let fitted = draft.fitted(&tiles);
    (tiles, fitted)
}
