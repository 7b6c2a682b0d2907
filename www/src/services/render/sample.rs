//! Core samples, asked for as long as their panel lies there.

use super::piece::PieceRenderer;
use super::request::{Item, Request};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::sinking::Sinking;
use crate::state::workpiece::Workpiece;
use leptos::prelude::*;

/// Asks for the sample anew whenever the point, the piece or the view changes, as long as the present owner lives.
pub fn keep_asking(renderer: PieceRenderer, piece: Workpiece, sinking: Sinking, results: Results, nav: Nav) {
    Effect::new(move || {
        if !nav.has_panel(PanelId::SAMPLE) {
            return;
        }
        let Some(pixels) = sinking.viewing.pixels.get() else { return };
        let item = Item::Sample(sinking.view(pixels), results.sample_point.get());
        let (recipe, seed) = (piece.made().0.clone(), piece.seed.get());
        renderer.ask_sample(Request { recipe, seed, items: vec![item] });
    });
}
