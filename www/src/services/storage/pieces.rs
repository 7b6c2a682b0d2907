//! What is done with the maker's pieces, each deed in one transaction.

use super::db::{CARDS, PICTURES, PIECES, Transaction};
use super::records::{read_card, read_stored, renumber, write_card, write_stored};
use super::texts::write_over;
use crate::model::faults::StorageFault;
use crate::model::ids::PieceId;
use crate::model::records::{Card, Saved, Stored, Whole};
use dappledome::keep::content::Kind;
use dappledome::recipe::piece::Piece;
use js_sys::Uint8Array;
use std::collections::HashSet;
use wasm_bindgen::JsCast;

/// The cards of all pieces, the newest first.
pub async fn cards() -> Result<Vec<Card>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    let mut cards: Vec<Card> = transaction.all(CARDS).await?.iter().filter_map(read_card).collect();
    let carded: HashSet<PieceId> = cards.iter().map(|card| card.id).collect();
    // A piece whose card is lost is on the shelf all the same.
    let lost = transaction.ids(PIECES).await?.into_iter().map(PieceId).filter(|id| !carded.contains(id));
    cards.extend(lost.map(unnamed));
    cards.sort_by(|a, b| b.changed.total_cmp(&a.changed));
    Ok(cards)
}

/// A piece; none if there is none of this number.
pub async fn piece(id: PieceId) -> Result<Option<Stored>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    Ok(transaction.get(PIECES, id.0).await?.as_ref().map(read_stored))
}

/// A piece with its small picture.
pub async fn look(id: PieceId) -> Result<(Option<Stored>, Option<Uint8Array>), StorageFault> {
    let transaction = Transaction::to_read().await?;
    let stored = transaction.get(PIECES, id.0).await?.as_ref().map(read_stored);
    let picture = transaction.get(PICTURES, id.0).await?;
    Ok((stored, picture.and_then(|picture| picture.dyn_into().ok())))
}

/// Saves a piece, if what is stored is still what this tab knows of it: the revision `known`, or nothing. The check
/// and the writing are one transaction, so that no other tab comes between. `now` is in ms since 1970.
pub async fn save(
    id: PieceId,
    known: Option<u32>,
    piece: &Piece,
    text: &str,
    now: f64,
) -> Result<Saved, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let saved = write_over(&transaction, PIECES, id.0, known, text, now).await?;
    if matches!(saved, Saved::As(_)) {
        transaction.put(CARDS, id.0, &write_card(id, piece, now))?;
        transaction.end().await?;
    }
    Ok(saved)
}

/// Keeps the small picture of a piece, if the piece is there; whether it was.
pub async fn save_picture(id: PieceId, picture: &Uint8Array) -> Result<bool, StorageFault> {
    let transaction = Transaction::to_write().await?;
    if transaction.get(CARDS, id.0).await?.is_none() {
        return Ok(false);
    }
    transaction.put(PICTURES, id.0, picture)?;
    transaction.end().await.map(|()| true)
}

/// Brings in a piece, changed last at this time in ms since 1970, under a number that must still be free; whether it was.
pub async fn add(
    id: PieceId,
    piece: &Piece,
    changed: f64,
    picture: Option<&Uint8Array>,
) -> Result<bool, StorageFault> {
    let transaction = Transaction::to_write().await?;
    if transaction.get(PIECES, id.0).await?.is_some() {
        return Ok(false);
    }
    write(&transaction, id, piece, &Stored { revision: 1, changed, text: piece.write() })?;
    if let Some(picture) = picture {
        transaction.put(PICTURES, id.0, picture)?;
    }
    transaction.end().await.map(|()| true)
}

/// Takes a piece away and gives all there was of it.
pub async fn take_away(id: PieceId) -> Result<Whole, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let piece = transaction.get(PIECES, id.0).await?.unwrap_or_default();
    let card = transaction.get(CARDS, id.0).await?.unwrap_or_default();
    let picture = transaction.get(PICTURES, id.0).await?.unwrap_or_default();
    transaction.delete(id.0)?;
    transaction.end().await.map(|()| Whole { kind: Kind::Piece, text: piece, card, picture })
}

/// Puts back what was taken away, under its own number or, if that was used again since, under another.
pub async fn put_back(id: PieceId, whole: &Whole) -> Result<PieceId, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let free = transaction.get(PIECES, id.0).await?.is_none();
    let id = if free { id } else { PieceId::fresh() };
    transaction.put(PIECES, id.0, &whole.text)?;
    if !whole.card.is_undefined() {
        renumber(&whole.card, id);
        transaction.put(CARDS, id.0, &whole.card)?;
    }
    if !whole.picture.is_undefined() {
        transaction.put(PICTURES, id.0, &whole.picture)?;
    }
    transaction.end().await.map(|()| id)
}

fn write(transaction: &Transaction, id: PieceId, piece: &Piece, stored: &Stored) -> Result<(), StorageFault> {
    transaction.put(PIECES, id.0, &write_stored(stored))?;
    transaction.put(CARDS, id.0, &write_card(id, piece, stored.changed))
}

fn unnamed(id: PieceId) -> Card {
    Card { id, title: String::new(), glasses: String::new(), changed: 0.0 }
}
