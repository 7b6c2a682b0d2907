//! The small picture of a piece for the shelf: the slumped thumbnail, taken when it shows what is kept.

use super::canvas;
use super::dom::el;
use super::history::Standing;
use super::state::{Bench, PieceId};
use super::store;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use js_sys::{ArrayBuffer, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::HtmlCanvasElement;

/// Where the slumped thumbnail is.
const THUMBNAIL: &str = ".stage:last-child canvas";

thread_local! {
    /// What the thumbnails show.
    static SHOWN: RefCell<Option<(Recipe, Seed, Light)>> = const { RefCell::new(None) };
    /// Of what the last picture was taken.
    static TAKEN: RefCell<Option<(PieceId, Recipe, Seed)>> = const { RefCell::new(None) };
}

/// The thumbnails have come to rest and show this.
pub fn rested(bench: Bench, recipe: &Recipe, seed: Seed, light: Light) {
    SHOWN.set(Some((recipe.clone(), seed, light)));
    take(bench);
}

/// Takes the picture of the piece on the table, if the thumbnail shows it by day and it was not taken yet.
pub fn take(bench: Bench) {
    let Standing { id: Some(id), piece } = bench.standing() else { return };
    let shows = SHOWN.with_borrow(|shown| {
        shown.as_ref().is_some_and(|(recipe, seed, light)| {
            *recipe == piece.recipe && *seed == piece.seed && *light == Light::Day
        })
    });
    let now = Some((id, piece.recipe, piece.seed));
    if !shows || TAKEN.with_borrow(|taken| *taken == now) {
        return;
    }
    let found = document().query_selector(THUMBNAIL).ok().flatten();
    let Some(canvas) = found.and_then(|found| found.dyn_into::<HtmlCanvasElement>().ok()) else { return };
    TAKEN.set(now);
    keep(bench, id, &canvas);
}

/// Asks for the picture of a piece that has none: it left the table too soon, or came without.
pub fn want(bench: Bench, id: PieceId, piece: &Piece) {
    if Plan::new(&piece.recipe).is_ok() {
        let wanted = (id, piece.recipe.clone(), piece.seed);
        bench.keep.wanted.update(|list| list.push(wanted));
    }
}

/// The picture that was asked for.
pub fn brought(bench: Bench, id: PieceId, side: u32, pixels: &ArrayBuffer) {
    let canvas: HtmlCanvasElement = el("canvas", "").cast();
    canvas::show(&canvas, side, pixels);
    keep(bench, id, &canvas);
}

fn keep(bench: Bench, id: PieceId, canvas: &HtmlCanvasElement) {
    canvas::as_small_file(canvas, move |bytes| {
        let Some(bytes) = bytes else { return };
        spawn_local(async move {
            let kept = store::save_picture(id, &Uint8Array::from(&bytes[..])).await;
            match kept {
                Ok(true) => bench.keep.pictured.set(Some(id)),
                // The piece itself is not kept yet; the picture is taken when it is.
                _ => TAKEN.set(None),
            }
        });
    });
}
