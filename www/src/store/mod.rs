//! The maker's pieces in this browser: each as text with a revision, a card with its name and day, and a small picture.

mod db;

pub use db::Fault;

use super::state::PieceId;
use super::words;
use dappledome::recipe::piece::Piece;
use db::{CARDS, Deal, PICTURES, PIECES, asked, result};
use js_sys::{Array, Object, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;

/// What the shelf knows of a piece without reading its recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Which piece.
    pub id: PieceId,
    /// Its name.
    pub title: String,
    /// The names of its glasses, to be searched.
    pub glasses: String,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
}

/// A piece as it is stored.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// Counted up at every change.
    pub revision: u32,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
    /// The piece as JSON, or whatever else is there.
    pub text: String,
}

/// What came of saving.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Saved {
    /// It is kept, under this revision.
    As(u32),
    /// It was taken away meanwhile, elsewhere. Nothing was written.
    Gone,
    /// It was changed meanwhile, elsewhere, at this time. Nothing was written.
    Changed(f64),
}

/// All there is of one piece, to be put back as it was.
#[derive(Clone, Debug)]
pub struct Whole {
    piece: JsValue,
    card: JsValue,
    picture: JsValue,
}

/// The cards of all pieces, the newest first.
pub async fn cards() -> Result<Vec<Card>, Fault> {
    let deal = Deal::to_read().await?;
    let cards = asked(deal.store(CARDS)?.get_all())?;
    let keys = asked(deal.store(PIECES)?.get_all_keys())?;
    let cards: Array = result(&cards).await?.unchecked_into();
    let mut cards: Vec<Card> = cards.iter().filter_map(|card| read_card(&card)).collect();
    let keys: Array = result(&keys).await?.unchecked_into();
    cards.sort_by_key(|card| card.id.0);
    let ids = keys.iter().filter_map(|id| id.as_f64()).map(|id| PieceId(id as u64));
    // A piece whose card is lost is on the shelf all the same.
    let lost = ids.filter(|id| cards.binary_search_by_key(&id.0, |card| card.id.0).is_err());
    let lost: Vec<Card> = lost.map(Card::unnamed).collect();
    cards.extend(lost);
    cards.sort_by(|a, b| b.changed.total_cmp(&a.changed));
    Ok(cards)
}

/// A piece; none if there is none of this number.
pub async fn piece(id: PieceId) -> Result<Option<Stored>, Fault> {
    let deal = Deal::to_read().await?;
    Ok(read_stored(&deal.get(PIECES, id.0).await?))
}

/// A piece with its small picture.
pub async fn look(id: PieceId) -> Result<(Option<Stored>, Option<Uint8Array>), Fault> {
    let deal = Deal::to_read().await?;
    let stored = read_stored(&deal.get(PIECES, id.0).await?);
    Ok((stored, deal.get(PICTURES, id.0).await?.dyn_into().ok()))
}

/// Saves a piece, if what is stored is still what this tab knows of it: the revision `known`, or nothing. The check
/// and the writing are one transaction, so that no other tab comes between.
pub async fn save(
    id: PieceId,
    known: Option<u32>,
    piece: &Piece,
    text: &str,
    now: f64,
) -> Result<Saved, Fault> {
    let deal = Deal::to_write().await?;
    let there = read_stored(&deal.get(PIECES, id.0).await?);
    match (there, known) {
        (None, Some(_)) => return Ok(Saved::Gone),
        (Some(there), known) if known != Some(there.revision) => {
            return Ok(if there.text == text {
                Saved::As(there.revision)
            } else {
                Saved::Changed(there.changed)
            });
        }
        _ => {}
    }
    let revision = known.unwrap_or(0) + 1;
    write(&deal, id, revision, piece, text, now)?;
    deal.end().await.map(|()| Saved::As(revision))
}

/// Keeps the small picture of a piece, if the piece is there; whether it was.
pub async fn save_picture(id: PieceId, picture: &Uint8Array) -> Result<bool, Fault> {
    let deal = Deal::to_write().await?;
    if deal.get(CARDS, id.0).await?.is_undefined() {
        return Ok(false);
    }
    deal.put(PICTURES, id.0, picture)?;
    deal.end().await.map(|()| true)
}

/// Brings in a piece under a number that must still be free; whether it was.
pub async fn add(
    id: PieceId,
    piece: &Piece,
    changed: f64,
    picture: Option<&Uint8Array>,
) -> Result<bool, Fault> {
    let deal = Deal::to_write().await?;
    if !deal.get(PIECES, id.0).await?.is_undefined() {
        return Ok(false);
    }
    write(&deal, id, 1, piece, &piece.write(), changed)?;
    if let Some(picture) = picture {
        deal.put(PICTURES, id.0, picture)?;
    }
    deal.end().await.map(|()| true)
}

/// Takes a piece away and gives all there was of it.
pub async fn take_away(id: PieceId) -> Result<Whole, Fault> {
    let deal = Deal::to_write().await?;
    let piece = deal.get(PIECES, id.0).await?;
    let card = deal.get(CARDS, id.0).await?;
    let picture = deal.get(PICTURES, id.0).await?;
    deal.delete(id.0)?;
    deal.end().await.map(|()| Whole { piece, card, picture })
}

/// Puts back what was taken away, under its own number or, if that was used again since, under another.
pub async fn put_back(id: PieceId, whole: &Whole) -> Result<PieceId, Fault> {
    let deal = Deal::to_write().await?;
    let free = deal.get(PIECES, id.0).await?.is_undefined();
    let id = if free { id } else { PieceId::fresh() };
    deal.put(PIECES, id.0, &whole.piece)?;
    if !whole.card.is_undefined() {
        // Its own number stands on the card too. An object of our own takes it.
        let _ = Reflect::set(&whole.card, &"id".into(), &JsValue::from_f64(id.0 as f64));
        deal.put(CARDS, id.0, &whole.card)?;
    }
    if !whole.picture.is_undefined() {
        deal.put(PICTURES, id.0, &whole.picture)?;
    }
    deal.end().await.map(|()| id)
}

impl Card {
    fn unnamed(id: PieceId) -> Self {
        Self { id, title: String::new(), glasses: String::new(), changed: 0.0 }
    }
}

fn write(
    deal: &Deal,
    id: PieceId,
    revision: u32,
    piece: &Piece,
    text: &str,
    changed: f64,
) -> Result<(), Fault> {
    let revision = JsValue::from_f64(f64::from(revision));
    let stored = object(&[("revision", revision), ("changed", changed.into()), ("text", text.into())]);
    let card = object(&[
        ("id", JsValue::from_f64(id.0 as f64)),
        ("title", JsValue::from_str(&piece.recipe.title)),
        ("glasses", words::glasses_of(&piece.recipe).into()),
        ("changed", changed.into()),
    ]);
    deal.put(PIECES, id.0, &stored)?;
    deal.put(CARDS, id.0, &card)
}

fn object(fields: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in fields {
        // A new object takes every field.
        let _ = Reflect::set(&object, &JsValue::from_str(name), value);
    }
    object.into()
}

fn field(object: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(object, &JsValue::from_str(name)).ok()
}

fn read_card(card: &JsValue) -> Option<Card> {
    let number = |name| field(card, name).and_then(|value| value.as_f64());
    let text = |name| field(card, name).and_then(|value| value.as_string());
    Some(Card {
        id: PieceId(number("id")? as u64),
        title: text("title")?,
        glasses: text("glasses").unwrap_or_default(),
        changed: number("changed")?,
    })
}

/// What is stored, however damaged: without a text of its own its text is whatever is there, written as JSON.
fn read_stored(stored: &JsValue) -> Option<Stored> {
    if stored.is_undefined() {
        return None;
    }
    let number = |name| field(stored, name).and_then(|value| value.as_f64());
    let text = field(stored, "text").and_then(|text| text.as_string());
    let whatever = || js_sys::JSON::stringify(stored).ok().and_then(|text| text.as_string());
    Some(Stored {
        revision: number("revision").unwrap_or(0.0) as u32,
        changed: number("changed").unwrap_or(0.0),
        text: text.or_else(whatever).unwrap_or_default(),
    })
}
