//! The back-up of everything to one file, and back again. Both go piece by piece, so that neither holds the page up.

use super::files;
use super::state::{Area, Bench, PieceId};
use super::store::{self, Fault};
use super::words;
use dappledome::keep::backup::{self, Kept};
use dappledome::recipe::piece::Piece;
use js_sys::{Array, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;

/// From so many bytes on the pictures stay at home, so that the file can be opened again; they are drawn anew.
const MOST_WITH_PICTURES: usize = dappledome::keep::open::MOST_BYTES / 2;

/// Saves everything that is kept as one file, with what lies on the table even if it is not kept; then tells what
/// came of it.
pub fn back_up(bench: Bench, tell: impl FnOnce(String) + 'static) {
    spawn_local(async move {
        let (parts, count) = all_parts(bench).await;
        let name = words::back_up_name(js_sys::Date::now());
        let saved = files::download_parts(&name, "application/json", &parts).is_ok();
        let said = words::backed_up(&name, count, saved);
        bench.said.set(said.clone());
        tell(said);
    });
}

async fn all_parts(bench: Bench) -> (Array, usize) {
    let parts = Array::of1(&backup::HEAD.into());
    let (mut count, mut bytes) = (0, 0);
    let mut add = |line: String| {
        if count > 0 {
            parts.push(&backup::BETWEEN.into());
        }
        bytes += line.len();
        count += 1;
        parts.push(&JsValue::from_str(&line));
        bytes
    };
    let standing = bench.standing();
    let text = standing.piece.write();
    let mut on_table = standing.id;
    let mut so_far = 0;
    // Where nothing can be read, what lies on the table is all there is.
    for card in store::cards().await.unwrap_or_default() {
        let Ok((Some(stored), picture)) = store::look(card.id).await else { continue };
        let picture = picture.filter(|_| so_far < MOST_WITH_PICTURES).map(|picture| picture.to_vec());
        so_far = add(backup::line(card.id.0, stored.changed, &stored.text, picture.as_deref()));
        if on_table == Some(card.id) && stored.text == text {
            on_table = None;
        }
    }
    if let Some(id) = on_table {
        add(backup::line(id.0, js_sys::Date::now(), &text, None));
    }
    parts.push(&backup::TAIL.into());
    (parts, count)
}

/// What came of the pieces of a back-up.
#[derive(Default)]
struct Count {
    new: usize,
    known: usize,
    unreadable: usize,
    unkept: Option<Fault>,
}

/// Brings the pieces of a back-up in, beside what is there, and shows them on the shelf with a word of what came of it.
pub fn bring_in(bench: Bench, text: String) {
    bench.lay_slip_aside();
    bench.area.set(Area::Shelf);
    spawn_local(async move {
        let mut count = Count::default();
        if let Some(Ok(lines)) = backup::read(&text) {
            for line in lines {
                match line {
                    None => count.unreadable += 1,
                    Some(kept) => match bring_one(kept).await {
                        Ok(true) => count.new += 1,
                        Ok(false) => count.known += 1,
                        Err(fault) => {
                            count.unkept = Some(fault);
                            break;
                        }
                    },
                }
            }
        }
        let Count { new, known, unreadable, unkept } = count;
        bench.keep.tell(bench.id.get_untracked().unwrap_or(PieceId(0)));
        bench.keep.note.set(words::brought_in(new, known, unreadable, unkept));
    });
}

/// Brings one piece in; whether it is new here. Nothing that is here is overwritten.
async fn bring_one(kept: Kept) -> Result<bool, Fault> {
    let Kept { id, changed, mut piece, picture } = kept;
    let picture = picture.map(|bytes| Uint8Array::from(&bytes[..]));
    if store::add(PieceId(id), &piece, changed, picture.as_ref()).await? {
        return Ok(true);
    }
    let here = store::piece(PieceId(id)).await?;
    let same = |there: &store::Stored| Piece::read(&there.text, piece.seed).is_ok_and(|there| there == piece);
    if here.as_ref().is_some_and(same) {
        return Ok(false);
    }
    let other = PieceId(backup::other_id(id, &piece));
    piece.recipe.title = words::from_back_up(&piece.recipe.title);
    store::add(other, &piece, changed, picture.as_ref()).await
}
