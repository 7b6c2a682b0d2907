//! What is done with texts of any kind: pieces, orders, the bench and the log, each deed in one transaction.

use super::db::{CARDS, PICTURES, Transaction, store_of};
use super::records::{read_stored, write_stored};
use crate::model::faults::StorageFault;
use crate::model::records::{Held, Saved, Stored, Whole};
use dappledome::keep::content::Kind;
use js_sys::Uint8Array;
use wasm_bindgen::{JsCast, JsValue};

/// Writes a text if what is stored is still what this tab knows of it: the revision `known`, or nothing. The check and the
/// writing are one transaction, so that no other tab comes between. `now` is in ms since 1970.
pub(super) async fn write_over(
    transaction: &Transaction,
    store: &str,
    id: u64,
    known: Option<u32>,
    text: &str,
    now: f64,
) -> Result<Saved, StorageFault> {
    let stored = match (transaction.get(store, id).await?.as_ref().map(read_stored), known) {
        (None, Some(_)) => return Ok(Saved::Gone),
        (Some(there), known) if known != Some(there.revision) && there.text != text => {
            return Ok(Saved::Changed(there.changed));
        }
        (Some(there), known) if known != Some(there.revision) => there,
        _ => Stored { revision: known.unwrap_or(0) + 1, changed: now, text: text.into() },
    };
    transaction.put(store, id, &write_stored(&stored))?;
    Ok(Saved::As(stored.revision))
}

/// Saves a text, with the photo that goes with it if there is one to be put back.
pub async fn save_text(
    kind: Kind,
    id: u64,
    known: Option<u32>,
    text: &str,
    now: f64,
    photo: Option<&JsValue>,
) -> Result<Saved, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let saved = write_over(&transaction, store_of(kind), id, known, text, now).await?;
    if matches!(saved, Saved::As(_)) {
        if let Some(photo) = photo {
            transaction.put(PICTURES, id, photo)?;
        }
        transaction.end().await?;
    }
    Ok(saved)
}

/// Takes a text away if it is still what this tab knows of it, and gives its photo; none if another tab has changed it.
pub async fn take_off(kind: Kind, id: u64, known: u32) -> Result<Option<JsValue>, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let there = transaction.get(store_of(kind), id).await?;
    if there.is_some_and(|there| read_stored(&there).revision != known) {
        return Ok(None);
    }
    let photo = transaction.get(PICTURES, id).await?.unwrap_or_default();
    transaction.delete(id)?;
    transaction.end().await.map(|()| Some(photo))
}

/// One text; none if there is none of this number.
pub async fn text(kind: Kind, id: u64) -> Result<Option<Stored>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    Ok(transaction.get(store_of(kind), id).await?.as_ref().map(read_stored))
}

/// All texts of a kind, with their numbers.
pub async fn texts(kind: Kind) -> Result<Vec<(u64, Stored)>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    let ids = transaction.ids(store_of(kind)).await?;
    let all = transaction.all(store_of(kind)).await?;
    Ok(ids.into_iter().zip(all.iter().map(read_stored)).collect())
}

/// Keeps the photo of an entry of the log.
pub async fn save_photo(id: u64, photo: &Uint8Array) -> Result<(), StorageFault> {
    let transaction = Transaction::to_write().await?;
    transaction.put(PICTURES, id, photo)?;
    transaction.end().await
}

/// The photo of an entry of the log, if it has one.
pub async fn photo(id: u64) -> Result<Option<Uint8Array>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    Ok(transaction.get(PICTURES, id).await?.and_then(|photo| photo.dyn_into().ok()))
}

/// The numbers of all texts.
pub async fn ids() -> Result<Vec<u64>, StorageFault> {
    let transaction = Transaction::to_read().await?;
    let mut ids = Vec::new();
    for kind in Kind::ALL {
        ids.extend(transaction.ids(store_of(kind)).await?);
    }
    Ok(ids)
}

/// All texts as they are stored; of the pictures the photos, since the others can be drawn anew.
pub async fn all() -> Result<Held, StorageFault> {
    let transaction = Transaction::to_read().await?;
    let mut all = Held::new();
    for kind in Kind::ALL {
        for id in transaction.ids(store_of(kind)).await? {
            let text = transaction.get(store_of(kind), id).await?.unwrap_or_default();
            let mut whole = Whole { kind, text, card: JsValue::UNDEFINED, picture: JsValue::UNDEFINED };
            match kind {
                Kind::Piece => whole.card = transaction.get(CARDS, id).await?.unwrap_or_default(),
                Kind::Entry => whole.picture = transaction.get(PICTURES, id).await?.unwrap_or_default(),
                Kind::Order | Kind::Bench => {}
            }
            all.push((id, whole));
        }
    }
    Ok(all)
}

/// Puts back those of these texts that are gone, or are there as they stood before; how many were.
pub async fn make_good(held: &[(u64, Whole)]) -> Result<usize, StorageFault> {
    let transaction = Transaction::to_write().await?;
    let mut gone = 0;
    for (id, whole) in held {
        let store = store_of(whole.kind);
        let there = transaction.get(store, *id).await?;
        if there.is_some_and(|there| read_stored(&there).revision >= read_stored(&whole.text).revision) {
            continue;
        }
        gone += 1;
        for (store, value) in [(store, &whole.text), (CARDS, &whole.card), (PICTURES, &whole.picture)] {
            if !value.is_undefined() {
                transaction.put(store, *id, value)?;
            }
        }
    }
    // What nothing was written in has ended by itself.
    if gone > 0 {
        transaction.end().await?;
    }
    Ok(gone)
}
