//! Records as the browser's database holds them, read however damaged they are.

use crate::model::ids::PieceId;
use crate::model::records::{Card, Stored};
use crate::words;
use dappledome::keep::backup::time;
use dappledome::recipe::piece::Piece;
use js_sys::{JSON, Object, Reflect};
use wasm_bindgen::JsValue;

/// The record of a text.
pub fn write_stored(stored: &Stored) -> JsValue {
    record(&[
        ("revision", stored.revision.into()),
        ("changed", stored.changed.into()),
        ("text", stored.text.as_str().into()),
    ])
}

/// The record of a card.
pub fn write_card(id: PieceId, piece: &Piece, changed: f64) -> JsValue {
    record(&[
        ("id", number(id.0)),
        ("title", piece.recipe.title.as_str().into()),
        ("glasses", words::glasses_of(&piece.recipe).into()),
        ("changed", changed.into()),
    ])
}

/// Writes another number on a card.
pub fn renumber(card: &JsValue, id: PieceId) {
    // An object of our own takes it; whatever else lies there stays as it is.
    let _ = Reflect::set(card, &"id".into(), &number(id.0));
}

/// A number as the database holds it.
pub fn number(id: u64) -> JsValue {
    JsValue::from_f64(id as f64)
}

/// The number that a key is.
pub fn read_number(key: &JsValue) -> Option<u64> {
    key.as_f64().map(|id| id as u64)
}

/// A card, unless it is damaged.
pub fn read_card(card: &JsValue) -> Option<Card> {
    let text = |name| field(card, name)?.as_string();
    Some(Card {
        id: read_number(&field(card, "id")?).map(PieceId)?,
        title: text("title")?,
        glasses: text("glasses").unwrap_or_default(),
        changed: time(field(card, "changed")?.as_f64()?),
    })
}

/// What is stored, however damaged: without a text of its own its text is whatever is there, written as JSON.
pub fn read_stored(stored: &JsValue) -> Stored {
    let number = |name| field(stored, name).and_then(|value| value.as_f64()).unwrap_or(0.0);
    let text = field(stored, "text").and_then(|text| text.as_string());
    let whatever = || JSON::stringify(stored).ok().and_then(|text| text.as_string());
    Stored {
        revision: number("revision") as u32,
        changed: time(number("changed")),
        text: text.or_else(whatever).unwrap_or_default(),
    }
}

fn record(fields: &[(&str, JsValue)]) -> JsValue {
    let record = Object::new();
    for (name, value) in fields {
        // A new object takes every field.
        let _ = Reflect::set(&record, &JsValue::from_str(name), value);
    }
    record.into()
}

fn field(record: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(record, &JsValue::from_str(name)).ok()
}
