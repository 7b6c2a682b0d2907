//! The small picture of a piece for the shelf: the slumped thumbnail, taken when it shows what is kept.

use super::render::piece::PieceRenderer;
use super::storage;
use crate::dom::canvas;
use crate::model::ids::PieceId;
use crate::model::records::Version;
use crate::model::slots::PictureSlot;
use crate::state::pictures::{Picture, Pictures};
use crate::state::results::Results;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use dappledome::base::seed::Seed;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use js_sys::Uint8Array;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Takes the small pictures.
#[derive(Clone, Copy)]
pub struct Thumbnails {
    piece: Workpiece,
    results: Results,
    saving: Saving,
    pictures: Pictures,
    renderer: PieceRenderer,
    /// Of what the last picture was taken.
    taken: StoredValue<Option<(PieceId, Recipe, Seed)>>,
}

impl Thumbnails {
    /// Begins to take the picture of the piece on the table whenever its thumbnails have come to rest. Takes the contexts of
    /// the page and the renderer.
    pub fn start() -> Self {
        let thumbnails = Self {
            piece: expect_context(),
            results: expect_context(),
            saving: expect_context(),
            pictures: expect_context(),
            renderer: expect_context(),
            taken: StoredValue::new(None),
        };
        Effect::new(move || {
            thumbnails.results.rested.track();
            thumbnails.take();
        });
        thumbnails
    }

    /// Takes the picture of the piece on the table, if the thumbnail shows it by day and it was not taken yet.
    pub fn take(&self) {
        let Version { id: Some(id), piece } = self.piece.version() else { return };
        let shown = self.results.rested.with_untracked(|rested| {
            rested.as_ref().is_some_and(|rested| {
                rested.recipe == piece.recipe && rested.seed == piece.seed && rested.light == Light::Day
            })
        });
        let now = Some((id, piece.recipe, piece.seed));
        if !shown || self.taken.with_value(|taken| *taken == now) {
            return;
        }
        if let Some(picture) = self.pictures.picture(PictureSlot::Thumbnail(Stage::Domed)) {
            self.taken.set_value(now);
            self.keep(id, &picture);
        }
    }

    /// Has the picture of a piece drawn that has none: it left the table too soon, or came without.
    pub fn want(&self, id: PieceId, piece: &Piece) {
        if Plan::new(&piece.recipe).is_ok() {
            let (slot, thumbnails) = (PictureSlot::Kept(id), *self);
            let give = move |picture| thumbnails.keep(id, &picture);
            self.renderer.draw_some_time(slot, &piece.recipe, piece.seed, give);
        }
    }

    fn keep(self, id: PieceId, picture: &Picture) {
        let Some(canvas) = canvas::with_picture(picture.side, &picture.pixels) else { return };
        canvas::as_small_file(&canvas, move |bytes| {
            if let Some(bytes) = bytes {
                spawn_local(self.store(id, bytes));
            }
        });
    }

    async fn store(self, id: PieceId, bytes: Vec<u8>) {
        match storage::save_picture(id, &Uint8Array::from(bytes.as_slice())).await {
            Ok(true) => self.saving.pictured.set(Some(id)),
            // The piece itself is not kept yet; the picture is taken when it is.
            _ => self.taken.set_value(None),
        }
    }
}
